; Made from grammar/tree-sitter/queries/locals.scm by `cargo xtask bless`.
; Threads, labels and parameters share one name space; motifs have another.
[ (file) (block) (motif) ] @local.scope

(thread name: (name) @local.definition.variable)
(take label: (name) @local.definition.variable)
(parameters (name) @local.definition.variable.parameter)
(for variable: (name) @local.definition.variable)
(motif name: (name) @local.definition.function)
(use motif: (name) @local.definition.function)

(name) @local.reference

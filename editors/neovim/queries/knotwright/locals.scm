; Made from grammar/tree-sitter/queries/locals.scm by `cargo xtask bless`.
; Threads, labels and parameters share one name space; motifs have another.
[ (file) (block) (motif) ] @local.scope

(thread name: (name) @local.definition.var)
(take label: (name) @local.definition.var)
(parameters (name) @local.definition.parameter)
(for variable: (name) @local.definition.var)
(motif name: (name) @local.definition.function)
(use motif: (name) @local.definition.import)

(name) @local.reference

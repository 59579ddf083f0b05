; Made from grammar/tree-sitter/queries/textobjects.scm by `cargo xtask bless`.
; A motif is selected as a function is elsewhere; opening, set and closing as a class is.
(motif (block) @function.inner) @function.outer
(opening (block) @class.inner) @class.outer
(set (block) @class.inner) @class.outer
(closing (block) @class.inner) @class.outer
(parameters (name) @parameter.inner)
(arguments (_) @parameter.inner)
(comment) @comment.outer

; Made from grammar/tree-sitter/queries/textobjects.scm by `cargo xtask bless`.
; A motif is selected as a function is elsewhere; opening, set and closing as a class is.
(motif (block) @function.inside) @function.around
(opening (block) @class.inside) @class.around
(set (block) @class.inside) @class.around
(closing (block) @class.inside) @class.around
(parameters (name) @parameter.inside)
(arguments (_) @parameter.inside)
(comment) @comment.around

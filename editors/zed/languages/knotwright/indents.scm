; Made from grammar/tree-sitter/queries/indents.scm by `cargo xtask bless`.
(block "}" @end) @indent
(rows "}" @end) @indent
(leader "}" @end) @indent
(then) @indent

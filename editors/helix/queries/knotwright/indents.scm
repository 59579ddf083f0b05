; Made from grammar/tree-sitter/queries/indents.scm by `cargo xtask bless`.
(block "}" @outdent) @indent
(rows "}" @outdent) @indent
(leader "}" @outdent) @indent
(then) @indent

; Made from grammar/tree-sitter/queries/indents.scm by `cargo xtask bless`.
(block "}" @indent.branch @indent.end) @indent.begin
(rows "}" @indent.branch @indent.end) @indent.begin
(leader "}" @indent.branch @indent.end) @indent.begin
(then) @indent.begin

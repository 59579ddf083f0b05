; Made from grammar/tree-sitter/queries/folds.scm by `cargo xtask bless`.
[ (block) (rows) (leader) ] @fold

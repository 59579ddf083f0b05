; Made from grammar/tree-sitter/queries/injections.scm by `cargo xtask bless`.
((comment) @injection.content
  (#set! injection.language "comment"))

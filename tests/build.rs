//! Compiles the committed tree-sitter parser, so that tests can hold it to ours.

#![allow(clippy::disallowed_methods, reason = "a build script talks to cargo")]

fn main() {
    let source = std::path::Path::new("../grammar/tree-sitter/src");
    for file in ["parser.c", "scanner.c"] {
        println!("cargo::rerun-if-changed={}", source.join(file).display());
    }
    cc::Build::new()
        .std("c11")
        .include(source)
        .file(source.join("parser.c"))
        .file(source.join("scanner.c"))
        .opt_level(2)
        .warnings(false)
        .compile("tree-sitter-knotwright");
}

//! The tree-sitter parser, generated from its grammar by tree-sitter's own generator.

use crate::run::{target, top};
use crate::tools::NodeJs;
use std::path::Path;
use tree_sitter_generate::{OptLevel, generate_parser_in_directory};

/// The version of tree-sitter's interface for which the checkout has the parser.
pub(crate) const ABI: usize = 15;

/// Generates the parser in the checkout; one for another version of the interface, for editors that load no newer, in a
/// folder of its own.
pub(crate) fn parser(abi: usize) -> Result<(), String> {
    let (home, node) = (top().join("grammar/tree-sitter"), NodeJs::installed()?.program());
    let sources = home.join("src");
    let to = if abi == ABI { sources.clone() } else { target().join(format!("parser-{abi}")) };
    std::fs::create_dir_all(&to).map_err(|error| format!("{}: {error}", to.display()))?;
    generate(&home.join("grammar.js"), &to, abi, Some(&node.display().to_string()))?;
    if to != sources {
        let scanner = "scanner.c";
        std::fs::copy(sources.join(scanner), to.join(scanner))
            .map_err(|error| format!("{scanner}: {error}"))?;
    }
    println!("{}", to.display());
    Ok(())
}

/// `node` is needed only for a grammar in JavaScript.
fn generate(grammar: &Path, to: &Path, abi: usize, node: Option<&str>) -> Result<(), String> {
    let (home, mut remarks) = (top().join("grammar/tree-sitter"), Vec::new());
    let done = generate_parser_in_directory(
        home,
        Some(to),
        Some(grammar),
        abi,
        None,
        node,
        true,
        OptLevel::default(),
        &mut remarks,
    );
    done.map_err(|error| format!("{}: {error}", grammar.display()))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_parser_of_the_checkout_is_what_its_grammar_makes() {
        let folder = tempfile::tempdir().expect("a folder for the test");
        let sources = top().join("grammar/tree-sitter/src");
        generate(&sources.join("grammar.json"), folder.path(), ABI, None).expect("it can be generated");
        for file in ["parser.c", "node-types.json"] {
            let read = |folder: &Path| std::fs::read_to_string(folder.join(file)).expect("it is text");
            assert!(
                read(folder.path()) == read(&sources),
                "{file} is not what the grammar makes: run `cargo xtask parser`"
            );
        }
    }
}

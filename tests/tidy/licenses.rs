//! Whose work is in the program: may it be handed out? The names of licenses and how they are put together are those of
//! SPDX (<https://spdx.github.io/spdx-spec/>, annex on license expressions), read by the crate `spdx`.

use crate::files;
use cargo_metadata::{DependencyKind, Metadata, MetadataCommand, Package, PackageId};
use spdx::{Expression, Licensee, ParseMode};
use std::collections::BTreeSet;

/// The list that `cargo xtask dist` uses too.
fn accepted() -> Vec<Licensee> {
    let list = files::text("packaging/licenses.toml".as_ref()).expect("the list is text");
    let list = list.split("accepted = [").nth(1).and_then(|rest| rest.split(']').next()).expect("a list");
    list.lines()
        .filter_map(|line| line.trim().strip_prefix('"')?.strip_suffix("\","))
        .map(|name| Licensee::parse(name).expect("a license that SPDX knows"))
        .collect()
}

/// All crates that become a part of the program, on any system.
fn handed_out(metadata: &Metadata) -> Vec<&Package> {
    let nodes = &metadata.resolve.as_ref().expect("cargo resolves").nodes;
    let program = metadata.packages.iter().find(|package| *package.name == "knotwright-cli");
    let mut open = vec![&program.expect("there is a program").id];
    let mut seen: BTreeSet<&PackageId> = BTreeSet::new();
    while let Some(id) = open.pop() {
        if !seen.insert(id) {
            continue;
        }
        let node = nodes.iter().find(|node| node.id == *id).expect("every crate is resolved");
        let is_used = |kinds: &[cargo_metadata::DepKindInfo]| {
            kinds.iter().any(|kind| kind.kind == DependencyKind::Normal)
        };
        open.extend(node.deps.iter().filter(|used| is_used(&used.dep_kinds)).map(|used| &used.pkg));
    }
    metadata.packages.iter().filter(|package| seen.contains(&package.id)).collect()
}

/// Whether what a crate says of its license can be kept with those that are accepted.
fn is_accepted(license: &str, accepted: &[Licensee]) -> bool {
    Expression::parse_mode(license, ParseMode::LAX)
        .is_ok_and(|wanted| wanted.evaluate(|asked| accepted.iter().any(|ours| ours.satisfies(asked))))
}

#[test]
fn every_crate_in_the_program_may_be_handed_out() {
    let metadata = MetadataCommand::new().manifest_path(files::top().join("Cargo.toml")).exec();
    let metadata = metadata.expect("cargo tells of all crates");
    let (accepted, crates) = (accepted(), handed_out(&metadata));
    assert!(crates.len() > 50, "only {} crates were found", crates.len());
    let refused: Vec<_> = crates
        .iter()
        .filter(|package| !package.license.as_deref().is_some_and(|said| is_accepted(said, &accepted)))
        .map(|package| format!("{}: {:?}", package.name, package.license))
        .collect();
    assert!(refused.is_empty(), "packaging/licenses.toml does not accept {refused:#?}");
}

#[test]
fn what_asks_for_more_is_refused() {
    let accepted = accepted();
    for said in ["GPL-3.0-only", "MIT AND LGPL-2.1-or-later", "AGPL-3.0-only OR MPL-2.0", "of my own", ""] {
        assert!(!is_accepted(said, &accepted), "{said}");
    }
    for said in ["GPL-3.0-only OR MIT", "Unlicense/MIT", "(MIT OR Apache-2.0) AND Unicode-3.0"] {
        assert!(is_accepted(said, &accepted), "{said}");
    }
}

//! The table of arrows in docs/ARCHITECTURE.md against what cargo says.

use crate::files;
use cargo_metadata::{DependencyKind, MetadataCommand};
use std::collections::{BTreeMap, BTreeSet};

type Arrows = BTreeMap<String, BTreeSet<String>>;

/// Rows of the form "| `checker` | `band`, `grammar` |"; a room may have several.
fn promised() -> Arrows {
    let page = files::text("docs/ARCHITECTURE.md".as_ref()).expect("the page is text");
    let table = page.split("<!-- arrows -->").nth(1).expect("the page marks its table");
    let quoted = |cell: &str| cell.split('`').skip(1).step_by(2).map(str::to_owned).collect::<Vec<_>>();
    let rows = table.lines().filter_map(|line| {
        let mut cells = line.trim_matches('|').split('|');
        let room = quoted(cells.next()?).pop()?;
        Some((room, quoted(cells.next()?)))
    });
    let mut arrows = Arrows::new();
    for (room, uses) in rows {
        arrows.entry(room).or_default().extend(uses);
    }
    arrows
}

/// What each crate under crates/ uses of ours when it is built (not when it is tested).
fn found() -> Arrows {
    let metadata = MetadataCommand::new()
        .manifest_path(files::top().join("Cargo.toml"))
        .no_deps()
        .exec()
        .expect("cargo tells of the workspace");
    let room = |name: &str| name.trim_start_matches("knotwright-").to_owned();
    metadata
        .packages
        .iter()
        .filter(|package| package.manifest_path.as_str().contains("/crates/"))
        .map(|package| {
            let ours = package
                .dependencies
                .iter()
                .filter(|dependency| dependency.path.is_some() && dependency.kind == DependencyKind::Normal)
                .map(|dependency| room(&dependency.name));
            (room(&package.name), ours.collect())
        })
        .collect()
}

#[test]
fn every_room_uses_only_what_the_table_allows() {
    let (promised, found) = (promised(), found());
    for (room, uses) in &found {
        let allowed =
            promised.get(room).unwrap_or_else(|| panic!("`{room}` is missing in docs/ARCHITECTURE.md"));
        let forbidden: Vec<_> = uses.difference(allowed).collect();
        assert!(
            forbidden.is_empty(),
            "`{room}` uses {forbidden:?}, which docs/ARCHITECTURE.md does not allow"
        );
    }
}

#[test]
fn the_table_names_no_room_that_is_not_there() {
    let found = found();
    for room in promised().keys() {
        assert!(found.contains_key(room), "docs/ARCHITECTURE.md tells of `{room}`, which is not there");
    }
}

#[test]
fn no_arrow_leads_in_a_circle() {
    let promised = promised();
    let mut open = promised.clone();
    while let Some(free) = open.iter().find(|(_, uses)| uses.iter().all(|used| !open.contains_key(used))) {
        let free = free.0.clone();
        open.remove(&free);
    }
    assert!(open.is_empty(), "a circle among {:?}", open.keys().collect::<Vec<_>>());
}

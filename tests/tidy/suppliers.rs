//! Outside crates: few, and each with its reason next to it.

use crate::files;

const MOST: usize = 53;

fn outside() -> Vec<String> {
    let manifest = files::text("Cargo.toml".as_ref()).expect("the manifest is text");
    let section = manifest.split("[workspace.dependencies]").nth(1).expect("the manifest lists dependencies");
    section
        .lines()
        .take_while(|line| !line.starts_with('['))
        .filter(|line| line.contains('=') && !line.starts_with("knotwright-") && !line.starts_with('#'))
        .map(str::to_owned)
        .collect()
}

#[test]
fn every_outside_crate_has_its_reason() {
    let bare: Vec<_> = outside().into_iter().filter(|line| !line.contains(" # ")).collect();
    assert!(bare.is_empty(), "there is no reason next to {bare:#?}");
}

#[test]
fn outside_crates_are_few() {
    let count = outside().len();
    assert!(count <= MOST, "{count} outside crates, at most {MOST}");
}

#[test]
fn no_crate_names_a_version_of_its_own() {
    let own: Vec<_> = files::kept("Cargo.toml")
        .into_iter()
        .filter(|path| path.starts_with("crates"))
        .flat_map(|path| {
            let text = files::text(&path).unwrap_or_default();
            // What a section holds, up to the next.
            let section = |rest: &str| rest.split("\n[").next().unwrap_or_default().to_owned();
            let dependencies = text.split("dependencies]").skip(1).map(section).collect::<String>();
            dependencies
                .lines()
                .filter(|line| line.contains(" = \"") || line.contains("version = "))
                .filter(|line| !line.starts_with("name") && !line.starts_with("path"))
                .map(|line| format!("{}: {line}", path.display()))
                .collect::<Vec<_>>()
        })
        .collect();
    assert!(own.is_empty(), "versions belong to the workspace manifest: {own:#?}");
}

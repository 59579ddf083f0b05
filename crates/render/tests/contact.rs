//! All colorways on one sheet, and a band as other eyes see it.

mod bands;

use knotwright_color::{Eyes, Rgb};
use knotwright_render::{NamedColors, NoPng, Scene, SvgOptions, contact_sheet, png_of_svg};

fn colorways() -> Vec<NamedColors> {
    let dusk = NamedColors { name: "Dusk & dawn".into(), threads: bands::threads(&[("reed", "#010203")]) };
    vec![dusk, NamedColors { name: "<as it is>".into(), threads: Vec::new() }]
}

#[test]
fn every_colorway_is_there_with_its_name_and_colors() {
    let set = bands::diagonal(3);
    let sheet = contact_sheet(&bands::reeds(&set, 1), &colorways(), &SvgOptions::default());
    assert_eq!(sheet.matches("<svg").count(), 3, "the sheet and two pictures");
    assert!(sheet.contains(">Dusk &amp; dawn</text>") && sheet.contains(">&lt;as it is&gt;</text>"));
    let (first, second) = sheet.split_once("id=\"1-").unwrap();
    assert!(first.contains("#010203") && !second.contains("#010203"));
    // The first thread's own color; the others keep theirs in both.
    assert!(!first.contains("#4a7c59") && second.contains("#4a7c59"));
    assert!(first.contains("#2c4a6e") && second.contains("#2c4a6e"));
}

#[test]
fn pictures_on_one_sheet_share_no_names() {
    let set = bands::led();
    let sheet = contact_sheet(&bands::band(&set, 1), &colorways(), &SvgOptions::default());
    let mut names: Vec<&str> =
        sheet.split(" id=\"").skip(1).filter_map(|rest| rest.split('"').next()).collect();
    let all = names.len();
    names.sort_unstable();
    names.dedup();
    assert_eq!(names.len(), all);
}

#[test]
fn a_sheet_can_be_painted_letters_and_all() {
    let set = bands::diagonal(3);
    let names = |name: &str| [NamedColors { name: name.into(), threads: Vec::new() }];
    let paint = |name| {
        let sheet = contact_sheet(&bands::reeds(&set, 1), &names(name), &SvgOptions::default());
        png_of_svg(&sheet, 1.0).unwrap()
    };
    assert_ne!(paint("dusk"), paint("dawn"), "the letters are seen");
    assert_eq!(paint("dusk"), paint("dusk"));
    assert_eq!(png_of_svg("no picture", 1.0), Err(NoPng::NotPainted));
}

#[test]
fn no_colorways_is_an_empty_sheet() {
    let set = bands::diagonal(3);
    let sheet = contact_sheet(&bands::reeds(&set, 1), &[], &SvgOptions::default());
    assert_eq!(sheet.matches("<svg").count(), 1);
}

#[test]
fn other_eyes_see_other_colors_and_the_same_knots() {
    let set = bands::diagonal(3);
    let mut band = bands::reeds(&set, 2);
    band.threads[0].color = Rgb::new(255, 0, 0);
    let own = Scene::of(&band);
    let seen = Scene::of(&band.seen_by(Eyes::Protan));
    // Machado, Oliveira & Fernandes 2009: red through eyes without cones for long waves.
    assert_eq!(seen.colors[0], Rgb::new(109, 95, 0));
    assert_eq!(seen.beads, own.beads);
    assert_eq!(seen.cords, own.cords);
}

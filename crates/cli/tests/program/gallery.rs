//! `gallery`: what hangs there, and what is done again after a change.

use crate::stage::{BROKEN, GOOD, Said, Stage};

const LIBRARY: &str = "pattern \"Tides\"\n\nmotif across() {\n  take left 1: forward 3\n}\n";

/// A band that works a motif of the library.
fn user() -> String {
    GOOD.replace("Low tide", "Spring tide")
        .replace("strands", "use across from \"../tides.knot\"\nstrands")
        .replacen("take left 1: forward 3", "work across()", 1)
}

fn stage() -> Stage {
    let stage =
        Stage::with(&[("tides.knot", LIBRARY), ("bands/low.knot", GOOD), ("bands/spring.knot", &user())]);
    stage.write("notes.md", format!("```knot\n{GOOD}```\n"));
    stage
}

fn hung(stage: &Stage) -> Said {
    stage.run(&["gallery", ".", "-o", "site", "--title", "Bands of the harbor"])
}

fn files(stage: &Stage, folder: &str) -> Vec<String> {
    let entries = std::fs::read_dir(stage.path(folder)).unwrap();
    let mut names: Vec<String> =
        entries.map(|entry| entry.unwrap().file_name().into_string().unwrap()).collect();
    names.sort();
    names
}

#[test]
fn every_band_hangs_there_with_its_picture_words_and_sheet() {
    let stage = stage();
    let said = hung(&stage);
    assert_eq!((said.code, said.err.as_str()), (0, "site/index.html: 2 bands: 2 drawn\n"), "{said:?}");
    assert_eq!(
        files(&stage, "site"),
        ["index.html", "knotwright-gallery.json", "pictures", "sheets", "words"]
    );
    assert_eq!(files(&stage, "site/pictures"), ["bands--low.svg", "bands--spring.svg"]);
    assert_eq!(files(&stage, "site/words"), ["bands--low.html", "bands--spring.html"]);
    assert_eq!(files(&stage, "site/sheets"), ["bands--low.html", "bands--spring.html"]);
    let page = stage.read("site/index.html");
    for part in ["Bands of the harbor", "Low tide", "Spring tide", "2 bands", "4\u{20}strands", "kelp: 2"] {
        assert!(page.contains(part), "{part}");
    }
    for address in page.split(" href=\"").chain(page.split(" src=\"")).skip(1) {
        let address = address.split('"').next().unwrap();
        assert!(
            !address.contains(':')
                && (address.starts_with("<!") || stage.path("site").join(address).is_file()),
            "{address}"
        );
    }
    assert!(stage.read("site/words/bands--low.html").contains("../pictures/bands--low.svg"));
}

/// A card shows little more than three centimeters: a loop and a plait above the knots would fill it.
#[test]
fn a_card_shows_knots_also_of_a_band_with_a_long_beginning() {
    let long = GOOD.replace("\nset", "begin {\n  loop 3 cm\n  plait 4 for 3 cm\n}\nset");
    let stage = Stage::with(&[("long.knot", &long), ("short.knot", GOOD)]);
    hung(&stage);
    let height = |name: &str| {
        let picture = stage.read(&format!("site/pictures/{name}.svg"));
        let view = picture.split("viewBox=\"").nth(1).unwrap().split('"').next().unwrap().to_owned();
        view.rsplit(' ').next().unwrap().parse::<f64>().unwrap()
    };
    let page = stage.read("site/index.html");
    let (_, view) = page.split_once("src=\"pictures/long.svg#svgView(viewBox(0,").unwrap();
    let begins: f64 = view.split(',').next().unwrap().parse().unwrap();
    // In tenths of a millimeter; all that makes the one picture higher is above its knots.
    let higher = height("long") - height("short");
    assert!(higher > 400.0 && (begins - higher).abs() < 80.0, "begins at {begins}, of {higher}");
    assert!(page.contains("src=\"pictures/short.svg\""), "its knots are near its top");
    assert!(stage.read("site/words/long.html").contains("src=\"../pictures/long.svg\""), "all of it");
}

#[test]
fn only_what_changed_is_drawn_again() {
    let stage = stage();
    hung(&stage);
    let all = |said: Said| said.err.trim_start_matches("site/index.html: ").trim_end().to_owned();
    let page = stage.read("site/index.html");
    assert_eq!(all(hung(&stage)), "2 bands: 0 drawn, 2 as before");
    assert_eq!(stage.read("site/index.html"), page, "the same bytes");
    stage.write("tides.knot", format!("{LIBRARY}-- slack water\n"));
    assert_eq!(all(hung(&stage)), "2 bands: 1 drawn, 1 as before", "a library concerns those who use it");
    stage.write("bands/low.knot", GOOD.replace("#e3c888", "#d3b878"));
    assert_eq!(all(hung(&stage)), "2 bands: 1 drawn, 1 as before");
    assert!(stage.read("site/index.html").contains("#d3b878"));
    stage.write("knotwright.toml", "[rules]\nidle-strand = \"error\"\n");
    assert_eq!(all(hung(&stage)), "2 bands: 2 drawn", "other settings hold");
    stage.write("site/pictures/bands--low.svg", "<svg");
    std::fs::remove_file(stage.path("site/words/bands--spring.html")).unwrap();
    assert_eq!(all(hung(&stage)), "2 bands: 2 drawn", "what is half there is not believed");
    assert!(stage.read("site/pictures/bands--low.svg").ends_with("</svg>\n"));
    std::fs::rename(stage.path("bands/low.knot"), stage.path("bands/neap.knot")).unwrap();
    assert_eq!(all(hung(&stage)), "2 bands: 1 drawn, 1 as before, 1 removed");
    for folder in ["site/pictures", "site/words", "site/sheets"] {
        assert!(files(&stage, folder).iter().all(|name| !name.starts_with("bands--low.")), "{folder}");
    }
    let inches = stage.run(&["gallery", "bands", "-o", "site", "--unit", "in"]);
    assert!(inches.err.ends_with("2 bands: 2 drawn\n"), "{inches:?}");
}

#[test]
fn what_a_killed_run_has_drawn_is_not_believed() {
    let names: Vec<String> = (0..120).map(|number| format!("{number:03}.knot")).collect();
    let all: Vec<(&str, &str)> = names.iter().map(|name| (name.as_str(), GOOD)).collect();
    let stage = Stage::with(&all);
    hung(&stage);
    let picture = stage.read("site/pictures/000.svg");
    // The other color is written with as many letters, so that nobody sees by its length which picture it is.
    names.iter().for_each(|name| stage.write(name, GOOD.replace("#e3c888", "#d3b878")));
    let mut child = stage.command(&["gallery", ".", "-o", "site"]).spawn().unwrap();
    while names
        .iter()
        .all(|name| stage.read(&format!("site/pictures/{}", name.replace(".knot", ".svg"))) == picture)
    {
        std::thread::sleep(std::time::Duration::from_millis(1));
    }
    child.kill().unwrap();
    child.wait().unwrap();
    names.iter().for_each(|name| stage.write(name, GOOD));
    let said = hung(&stage);
    assert_eq!(said.code, 0, "{said:?}");
    for name in &names {
        let path = format!("site/pictures/{}", name.replace(".knot", ".svg"));
        assert_eq!(stage.read(&path), picture, "{path}");
    }
}

#[test]
fn what_has_errors_is_left_out_and_told() {
    let stage = stage();
    hung(&stage);
    stage.write("bands/low.knot", BROKEN);
    let said = hung(&stage);
    assert_eq!(said.code, 1, "{said:?}");
    assert!(said.err.starts_with("error: bands/low.knot: it has errors and is left out"), "{}", said.err);
    assert!(said.err.ends_with("1 band: 0 drawn, 1 as before, 1 removed\n"), "{}", said.err);
    assert_eq!(files(&stage, "site/pictures"), ["bands--spring.svg"]);
}

#[test]
fn a_folder_with_something_else_in_it_is_left_alone() {
    let stage = stage();
    stage.write("site/index.html", "mine");
    let said = hung(&stage);
    assert!(said.code == 2 && said.err.contains("that is no gallery"), "{said:?}");
    assert_eq!(files(&stage, "site"), ["index.html"]);
    stage.write("other/knotwright-gallery.json", "{}");
    let said = stage.run(&["gallery", ".", "-o", "other"]);
    assert!(said.code == 2 && said.err.contains("cannot be understood"), "{said:?}");
}

#[test]
fn names_in_the_list_of_a_gallery_lead_nowhere_else() {
    let stage = stage();
    hung(&stage);
    stage.write("mine.svg", "mine");
    let list = stage
        .read("site/knotwright-gallery.json")
        .replace("\"slug\":\"bands--low\"", "\"slug\":\"../../mine\"");
    assert!(list.contains("../../mine"), "{list}");
    stage.write("site/knotwright-gallery.json", list);
    let said = hung(&stage);
    assert!(said.code == 2 && said.err.contains("no file here is called"), "{said:?}");
    assert_eq!(stage.read("mine.svg"), "mine");
}

#[test]
fn text_of_a_pattern_is_no_markup() {
    let nasty = "</style><script>alert(1)</script><img src=x onerror=alert(1)>&'";
    let text = GOOD.replace("Low tide", nasty).replace("#e3c888", &format!("#e3c888 \"{nasty}\""));
    let stage = Stage::with(&[("a \"b'<i>.knot", &text)]);
    let said = stage.run(&["gallery", ".", "-o", "site", "--title", nasty]);
    assert_eq!(said.code, 0, "{said:?}");
    let words = files(&stage, "site/words");
    for page in ["site/index.html".to_owned(), format!("site/words/{}", words[0])] {
        let text = stage.read(&page);
        assert!(text.contains("&lt;/style&gt;&lt;script&gt;"), "{page}");
        assert!(!text.contains("<img src=x") && !text.contains("alert(1)</script>"), "{page}");
        assert!(text.contains("default-src 'none'"), "{page}");
    }
}

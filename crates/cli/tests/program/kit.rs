//! `kit`

use crate::stage::{BROKEN, Stage, held_to};
use serde_json::Value;

fn kit(stage: &Stage, arguments: &[&str]) -> Value {
    let said = stage.run(&[&["kit", "--format", "json"], arguments].concat());
    assert_eq!(said.code, 0, "{said:?}");
    held_to("kit-1", serde_json::from_str(&said.out).unwrap())
}

/// Twelve knots a set, four of them turning, in six pick-ups; an opening and a closing.
const PIER: &str = "\
pattern \"Pier\"
thread kelp #1f5d50 \"green\"
thread foam #f3f7f0
strands kelp foam kelp foam
colorway \"dusk\" {
  thread kelp #16425b
  thread foam #3a9fbf
}
opening { take left 1: forward 3 }
set {
  take left 1: forward-backward 1, forward-backward 1, forward-backward 1
  take left 2: forward 2
  take left 2: forward 1
  take right 1: backward 3
  take left 3: forward-backward 1
  take left 2: forward 2
}
closing { take left 1: forward 3 }
";

fn numbers(list: &Value, field: &str) -> f64 {
    list.as_array().unwrap().iter().map(|of| of[field].as_f64().unwrap()).sum()
}

#[test]
fn what_is_bought_is_what_is_cut_for_all_bands() {
    let stage = Stage::with(&[("pier.knot", PIER)]);
    let measured = stage.run(&["measure", "--format", "json", "--sets", "5", "pier.knot"]);
    let measured: Value = serde_json::from_str(&measured.out).unwrap();
    for count in [1, 7, 30] {
        let kit = kit(&stage, &["--sets", "5", "--count", &count.to_string(), "pier.knot"]);
        let lengths = |list: &Value| -> Vec<f64> {
            list.as_array().unwrap().iter().map(|of| of["length_mm"].as_f64().unwrap()).collect()
        };
        assert_eq!(lengths(&kit["bands"][0]["pieces"]), lengths(&measured["pieces"]), "as `measure` says");
        let cut = numbers(&kit["bands"][0]["pieces"], "length_mm") * f64::from(count);
        assert!((numbers(&kit["buy"], "length_mm") - cut).abs() < 0.5 && cut > 0.0);
        assert_eq!(numbers(&kit["buy"], "pieces"), 4.0 * f64::from(count));
        for of in kit["buy"].as_array().unwrap() {
            let (skeins, least) = (of["skeins"].as_f64().unwrap(), of["at_least"].as_f64().unwrap());
            assert!(
                least * 8000.0 >= of["length_mm"].as_f64().unwrap() - 1.0,
                "no skein holds more than it has"
            );
            assert!(least <= skeins && 9.0 * skeins <= 11.0 * least.max(1.0) + 6.0, "{of}");
        }
    }
}

/// Weight by ISO 1144: 250 tex is 250 g for each kilometer.
#[test]
fn weight_and_cost_are_there_where_they_are_asked_for() {
    let stage = Stage::with(&[("pier.knot", PIER)]);
    let plain = kit(&stage, &["pier.knot"]);
    assert!(plain["buy"][0]["grams"].is_null() && plain["total"]["cost"].is_null());
    let kit =
        kit(&stage, &["--tex", "250", "--price", "1.25", "--count", "12", "--skein", "5 m", "pier.knot"]);
    for of in kit["buy"].as_array().unwrap().iter().chain([&kit["total"]]) {
        let (grams, length) = (of["grams"].as_f64().unwrap(), of["length_mm"].as_f64().unwrap());
        assert!((grams - length * 250.0 / 1e6).abs() < 0.02, "{of}");
        assert_eq!(of["cost"].as_f64().unwrap(), of["skeins"].as_f64().unwrap() * 1.25);
    }
    assert_eq!((kit["skein_mm"].as_f64(), kit["skein_assumed"].as_bool()), (Some(5000.0), Some(false)));
    let said = stage.run(&["kit", "--tex", "250", "--price", "1.25", "pier.knot"]);
    assert!(
        said.out.contains("weight") && said.out.contains("cost") && said.out.contains("ISO 1144"),
        "{said:?}"
    );
}

#[test]
fn a_pattern_can_say_how_heavy_its_thread_is() {
    let heavy = PIER.replace("opening {", "gauge { 250 tex }\nopening {");
    let stage = Stage::with(&[("pier.knot", PIER), ("heavy.knot", &heavy)]);
    let (said, typed) = (kit(&stage, &["heavy.knot"]), kit(&stage, &["--tex", "250", "pier.knot"]));
    assert_eq!((&said["tex"], &said["buy"], &said["total"]), (&typed["tex"], &typed["buy"], &typed["total"]));
    assert!(numbers(&said["buy"], "grams") > 0.0);
    let doubled = numbers(&kit(&stage, &["--tex", "500", "heavy.knot"])["buy"], "grams");
    assert!((doubled - 2.0 * numbers(&said["buy"], "grams")).abs() < 0.1, "what is typed goes first");
    // Of thread that is also cut for a band that does not say it, nobody knows what it weighs.
    let both = kit(&stage, &["heavy.knot", "pier.knot"]);
    assert_eq!((&both["tex"], &both["buy"][0]["grams"]), (&Value::Null, &Value::Null));
    let words = stage.run(&["kit", "heavy.knot"]).out;
    assert!(words.contains("for thread of 250 tex") && words.contains("weight"), "{words}");
}

#[test]
fn a_thread_of_two_patterns_is_bought_once() {
    let other = PIER.replace("Pier", "Quay").replace("#f3f7f0", "#ffffff");
    let stage = Stage::with(&[("pier.knot", PIER), ("quay.knot", &other)]);
    let both = kit(&stage, &["pier.knot", "quay.knot"]);
    let names: Vec<_> = both["buy"]
        .as_array()
        .unwrap()
        .iter()
        .map(|of| (of["thread"].as_str(), of["color"].as_str()))
        .collect();
    assert_eq!(
        names,
        [("kelp", "#1f5d50"), ("foam", "#f3f7f0"), ("foam", "#ffffff")].map(|(a, b)| (Some(a), Some(b))),
        "a name in another color is another thread"
    );
    assert_eq!(both["buy"][0]["pieces"], 4);
    assert_eq!(both["bands"][1]["path"], "quay.knot");
}

/// Who writes in German says so with `en` for those who read English; `write` prints that, and so does a kit.
#[test]
fn titles_and_labels_are_those_that_are_there_in_english() {
    let german = PIER
        .replace("pattern \"Pier\"", "pattern \"Steg\", en \"Pier\"")
        .replace("\"green\"", "\"Seegrün\", en \"green\"");
    let other = PIER.replace("Pier", "Quay").replace("\"green\"", "\"green\", de \"Seegrün\"");
    let stage = Stage::with(&[("pier.knot", &german), ("quay.knot", &other)]);
    for (arguments, shown) in [
        (&["kit", "pier.knot"][..], &["Kit for 1 band: Pier", "green"][..]),
        (&["kit", "--format", "markdown", "pier.knot"], &["## Pier\n", "| green |"]),
        (&["measure", "pier.knot"], &["Pier\n"]),
        (&["draw", "--format", "svg", "pier.knot"], &["<title>Pier</title>"]),
        (&["draw", "--chart", "--format", "svg", "pier.knot"], &[">green<"]),
    ] {
        let said = stage.run(arguments);
        assert!(shown.iter().all(|text| said.out.contains(text)), "{arguments:?}: {said:?}");
        assert!(!said.out.contains("Steg") && !said.out.contains("Seegrün"), "{arguments:?}: {said:?}");
    }
    let both = kit(&stage, &["pier.knot", "quay.knot"]);
    let (kelp, foam) = (&both["buy"][0], &both["buy"][1]);
    assert_eq!(
        (both["buy"].as_array().unwrap().len(), &kelp["pieces"], &foam["pieces"]),
        (2, &4.into(), &4.into())
    );
    assert_eq!(kelp["label"], "green", "one thread, as both call it so in English");
}

#[test]
fn a_colorway_gives_its_colors() {
    let stage = Stage::with(&[("pier.knot", PIER)]);
    let dusk = kit(&stage, &["--colorway", "dusk", "pier.knot"]);
    assert_eq!(
        (dusk["buy"][0]["color"].as_str(), dusk["colorway"].as_str()),
        (Some("#16425b"), Some("dusk"))
    );
    let none = stage.run(&["kit", "--colorway", "dawn", "pier.knot"]);
    assert!(
        none.code == 2 && none.err.contains("no colorway is called \"dawn\"; there is \"dusk\""),
        "{none:?}"
    );
}

/// By hand, with the usual pace: 6 s for a knot, 2 s more for a turning knot, 4 s for a pick-up, 45 s for a strand.
#[test]
fn time_is_counted_knot_by_knot() {
    let stage = Stage::with(&[("pier.knot", PIER)]);
    let band = kit(&stage, &["--sets", "10", "pier.knot"])["bands"][0].clone();
    let time = &band["time"];
    assert_eq!(
        (time["knots"].as_u64(), time["turning_knots"].as_u64(), time["pick_ups"].as_u64()),
        (Some(126), Some(40), Some(62))
    );
    let likely = 4.0 * 45.0 + 126.0 * 6.0 + 40.0 * 2.0 + 62.0 * 4.0;
    assert_eq!(time["likely_s"].as_f64(), Some(likely));
    assert_eq!(time["high_s"].as_f64(), Some((likely * 1.5_f64).round()));
    let cues = band["cues"].as_array().unwrap();
    let moments: Vec<&str> = cues.iter().map(|cue| cue["moment"].as_str().unwrap()).collect();
    assert_eq!(moments, [&["set-up", "opening"][..], &["set"; 10], &["closing", "tied"]].concat());
    let at: Vec<f64> = cues.iter().map(|cue| cue["at_s"].as_f64().unwrap()).collect();
    assert!(at.is_sorted() && at[0] == 0.0 && *at.last().unwrap() < likely, "{at:?}");
    // A set: 12 knots, 4 of them turning, 6 pick-ups.
    assert_eq!(at[4] - at[3], 12.0 * 6.0 + 4.0 * 2.0 + 6.0 * 4.0);
    let faster = kit(&stage, &["--sets", "10", "--pace", "3", "pier.knot"]);
    assert_eq!(faster["bands"][0]["time"]["likely_s"].as_f64(), Some(180.0 + (likely - 180.0) / 2.0));
}

#[test]
fn measured_times_replace_the_usual_ones() {
    let mut times = "knots,turning_knots,pick_ups,seconds\n".to_owned();
    for (knots, turning, pick_ups) in
        [(40, 0, 10), (60, 20, 8), (30, 5, 20), (90, 0, 12), (50, 30, 30), (70, 10, 6)]
    {
        times += &format!("{knots},{turning},{pick_ups},{}\n", 9 * knots + 3 * turning + 2 * pick_ups);
    }
    let stage = Stage::with(&[("pier.knot", PIER), ("times.csv", &times), ("bad.csv", "knots\n")]);
    let kit = kit(&stage, &["--sets", "10", "--times", "times.csv", "pier.knot"]);
    assert_eq!(kit["pace"]["basis"], "measured");
    let likely = kit["bands"][0]["time"]["likely_s"].as_f64().unwrap() - 180.0;
    let wanted = 126.0 * 9.0 + 40.0 * 3.0 + 62.0 * 2.0;
    assert!((likely / wanted - 1.0).abs() < 0.03, "{likely} for {wanted}");
    let said = stage.run(&["kit", "--times", "times.csv", "pier.knot"]);
    assert!(said.out.contains("Your times come to"), "{said:?}");
    for (file, says) in [("bad.csv", "its first line must be"), ("none.csv", "none.csv: ")] {
        let said = stage.run(&["kit", "--times", file, "pier.knot"]);
        assert!(said.code == 2 && said.err.contains(says) && said.out.is_empty(), "{said:?}");
    }
}

/// Ten pieces of 80 cm are 8 m, but where each begins with a color that comes round every 108 cm, a skein of 8 m gives
/// seven: at 0, 108, ... 648 cm, and the next would end at 836 cm.
#[test]
fn pieces_that_begin_at_a_color_take_more_thread() {
    let tide = concat!(env!("CARGO_MANIFEST_DIR"), "/../../shared/patterns/evening-tide.knot");
    let stage = Stage::with(&[]);
    let skeins = |arguments: &[&str]| {
        let kit = kit(&stage, &[&[tide], arguments].concat());
        (kit["buy"][0]["skeins"].as_u64().unwrap(), kit["buy"][1]["skeins"].as_u64().unwrap())
    };
    assert_eq!(skeins(&["--count", "10"]), (9, 2), "60 pieces by 7, 20 by 10");
    assert_eq!(skeins(&["--count", "10", "--colorway", "morning"]), (6, 2), "every 80 cm, a piece of 80 cm");
    let told = stage.run(&["kit", tide, "--count", "10"]).out;
    assert!(told.contains("comes round every 108 cm, so a skein of 8 m"), "{told}");
    assert!(told.contains("gives 7 pieces of 80 cm"), "{told}");
    let bought = &kit(&stage, &[tide, "--count", "10"])["buy"][0];
    assert_eq!(bought["at_least"], 9);
    let told = stage.run(&["write", tide]).out;
    assert!(told.contains("comes round every 108 cm, and each of its pieces begins there"), "{told}");
    assert!(told.contains("they take 6.2 m."), "five times 108 cm, and 80 cm: {told}");
    let plain = stage.run(&["write", tide, "--colorway", "morning"]).out;
    assert!(!plain.contains("comes round every"), "nothing lies between: {plain}");
}

#[test]
fn what_the_time_leaves_out_is_said() {
    let patterns = concat!(env!("CARGO_MANIFEST_DIR"), "/../../shared/patterns/");
    let told = |name: &str| Stage::with(&[]).run(&["kit", &format!("{patterns}{name}.knot")]).out;
    let has = |name: &str, sentence: &str| {
        let told = told(name);
        let time = told.lines().find(|line| line.starts_with("One band takes about ")).unwrap().to_owned();
        assert!(time.contains(sentence), "{name}: {time}");
    };
    has("dew-on-a-web", "), without beads and what is made at the ends: ");
    has("mooring-lines", "), without what is made at the ends: ");
    has("tide-pool-pearls", "), without beads: ");
    has("three-reeds", " min): ");
}

#[test]
fn difficulty_is_plain_facts() {
    let alike = PIER.replace("#f3f7f0", "#1f6050");
    let stage = Stage::with(&[("pier.knot", &alike)]);
    let facts = kit(&stage, &["pier.knot"])["bands"][0]["difficulty"].clone();
    assert_eq!((facts["strands"].as_u64(), facts["threads"].as_u64()), (Some(4), Some(2)));
    assert_eq!(facts["kinds"].to_string(), "[\"forward\",\"backward\",\"forward-backward\"]");
    assert_eq!((facts["longest_run"].as_u64(), facts["pick_ups_in_a_set"].as_u64()), (Some(3), Some(6)));
    assert_eq!(facts["alike"][0]["threads"].to_string(), "[\"kelp\",\"foam\"]");
    let said = stage.run(&["kit", "pier.knot"]);
    assert!(
        said.out.contains("4 strands of 2 threads; forward, backward and forward-backward knots"),
        "{said:?}"
    );
    assert!(said.out.contains("kelp and foam are hard to tell apart"), "{said:?}");
}

#[test]
fn a_strand_that_no_skein_holds_is_reported() {
    let stage = Stage::with(&[("pier.knot", PIER)]);
    let said = stage.run(&["kit", "--length", "1m", "--skein", "1m", "--count", "3", "pier.knot"]);
    assert!(
        said.code == 0 && said.out.contains("6 pieces of kelp are longer than a skein and not counted"),
        "{said:?}"
    );
}

/// A list without a band would be too short: whoever buys by it comes home with too little.
#[test]
fn with_an_error_in_one_pattern_nothing_is_listed() {
    let stage = Stage::with(&[("pier.knot", PIER), ("broken.knot", BROKEN)]);
    let said = stage.run(&["kit", "pier.knot", "broken.knot"]);
    assert!(said.code == 1 && said.out.is_empty() && said.err.contains("broken.knot"), "{said:?}");
    let short = stage.run(&["kit", "--length", "1cm", "pier.knot"]);
    assert!(short.code == 2 && short.out.is_empty() && short.err.contains("pier.knot: "), "{short:?}");
    for wrong in
        [&["--count", "0"][..], &["--price", "-1"], &["--tex", "NaN"], &["--pace", "5", "--times", "a.csv"]]
    {
        let said = stage.run(&[&["kit", "pier.knot"], wrong].concat());
        assert!(said.code == 2 && said.out.is_empty(), "{wrong:?}: {said:?}");
    }
}

#[test]
fn a_spreadsheet_gets_a_line_for_each_thing() {
    let stage = Stage::with(&[("a,b.knot", PIER)]);
    let said = stage.run(&["kit", "--format", "csv", "--sets", "2", "--count", "5", "a,b.knot"]);
    let lines: Vec<&str> = said.out.split("\r\n").collect();
    let columns = |line: &str| line.replace("\"a,b.knot\"", "name").split(',').count();
    let wide = columns(lines[0]);
    assert!(lines[..lines.len() - 1].iter().all(|line| columns(line) == wide), "{said:?}");
    let of = |list: &str| lines.iter().filter(|line| line.starts_with(list)).count();
    assert_eq!((of("buy,"), of("cut,"), of("time,")), (2, 4, 6), "{said:?}");
    assert!(lines.iter().any(|line| line.starts_with("cut,\"a,b.knot\",kelp,#1f5d50,1,5,")), "{said:?}");
}

#[test]
fn text_of_a_pattern_is_harmless_in_every_form() {
    let hostile = PIER
        .replace("\"Pier\"", "\"<b>*Pier*</b>\u{202e}\"")
        .replace("\"green\"", "\"gr\u{202e}een\u{1b}[2J\"");
    let stage = Stage::with(&[("pier.knot", &hostile)]);
    for arguments in [&["kit", "pier.knot"][..], &["kit", "--format", "markdown", "pier.knot"]] {
        let said = stage.run(arguments);
        assert!(said.code == 0 && !said.out.contains(['\u{202e}', '\u{1b}']), "{said:?}");
    }
    let page = stage.run(&["kit", "--format", "markdown", "pier.knot"]).out;
    assert!(
        page.starts_with("# Kit for 1 band: ") && !page.contains("<b>") && !page.contains("*Pier*"),
        "{page}"
    );
    assert!(page.contains("Not for children under three"), "{page}");
}

#[test]
fn every_sample_has_a_kit() {
    let patterns = concat!(env!("CARGO_MANIFEST_DIR"), "/../../shared/patterns");
    let kit = kit(&Stage::with(&[]), &["--count", "30", "--wrist", "16cm", patterns]);
    assert!(kit["bands"].as_array().unwrap().len() >= 20);
    let said = Stage::with(&[]).run(&["kit", "--count", "30", patterns]);
    assert!(said.code == 0 && said.out.lines().count() > 100, "{said:?}");
}

//! The working chart.

mod bands;

use bands::{plain_script, reeds_script};
use knotwright_band::ends::{BandEnds, EndWork};
use knotwright_band::{Kind, Piece};
use knotwright_color::Rgb;
use knotwright_render::{
    ChartMark, ChartOptions, Event, ProseOptions, TyingScript, WorkingChart, chart_pages, draw_chart,
    write_sheet,
};

fn black_and_white() -> ChartOptions {
    ChartOptions { color: false, ..ChartOptions::default() }
}

fn shapes(script: &TyingScript) -> WorkingChart {
    WorkingChart::of(script, &ChartOptions::default())
}

/// The texts of all headings, labels and lines.
fn texts(chart: &WorkingChart) -> Vec<&str> {
    let text = |mark: &'_ ChartMark| matches!(mark, ChartMark::Text { .. } | ChartMark::Label { .. });
    let said = chart.marks.iter().filter(|mark| text(mark)).map(|mark| match mark {
        ChartMark::Text { text, .. } | ChartMark::Label { text, .. } => text.as_str(),
        _ => "",
    });
    said.collect()
}

/// The rows' numbers from the top, with the sides where they begin.
fn numbers(chart: &WorkingChart) -> Vec<(u32, &'static str)> {
    let mut found: Vec<(f64, u32, &str)> = Vec::new();
    for mark in &chart.marks {
        if let ChartMark::Number { at, number, rightward } = mark {
            found.push((at[1], *number, if *rightward { "left" } else { "right" }));
        }
    }
    found.sort_by(|one, other| one.0.total_cmp(&other.0));
    found.into_iter().map(|(_, number, side)| (number, side)).collect()
}

/// The threads that are shown as they hang, line by line, except for those of the legend.
fn hanging(script: &TyingScript, chart: &WorkingChart) -> Vec<Vec<u16>> {
    let mut lines: Vec<(f64, Vec<u16>)> = Vec::new();
    for mark in chart.marks.iter() {
        let ChartMark::Hanging { at, thread } = mark else { continue };
        match lines.iter_mut().find(|(y, _)| *y == at[1]) {
            Some((_, threads)) => threads.push(*thread),
            None => lines.push((at[1], vec![*thread])),
        }
    }
    lines
        .into_iter()
        .skip(1)
        .map(|(_, threads)| threads)
        .filter(|all| all.len() == script.strands.len())
        .collect()
}

#[test]
fn a_set_with_all_kinds() {
    let set = bands::of_all_kinds();
    insta::assert_snapshot!(draw_chart(&plain_script(&set, 1), &ChartOptions::default()));
}

#[test]
fn a_leaders_rows_in_black_and_white() {
    let set = bands::led();
    insta::assert_snapshot!(draw_chart(&plain_script(&set, 1), &black_and_white()));
}

#[test]
fn kinds_differ_in_shape_not_only_in_color() {
    let outline = |kind| {
        let set = Piece::tie(2, [(0, kind)]).unwrap();
        let chart = draw_chart(&plain_script(&set, 1), &black_and_white());
        let (_, shape) = chart.split_once("<defs>").unwrap();
        shape.split_once(" d=\"").unwrap().1.split_once('"').unwrap().0.to_owned()
    };
    let mut outlines =
        [Kind::Forward, Kind::Backward, Kind::ForwardBackward, Kind::BackwardForward].map(outline).to_vec();
    outlines.sort_unstable();
    outlines.dedup();
    assert_eq!(outlines.len(), 4);
}

#[test]
fn without_color_there_is_black_white_and_gray_only() {
    let set = bands::diagonal(3);
    let chart = draw_chart(&reeds_script(&set, 2), &black_and_white());
    let colors = chart.split("\"#").skip(1).filter_map(|rest| rest.split('"').next());
    for color in colors.filter(|color| color.len() == 6) {
        let color: Rgb = format!("#{color}").parse().unwrap();
        assert!(color.red == color.green && color.green == color.blue, "{color}");
    }
}

#[test]
fn the_legend_tells_of_the_kinds_that_are_there_and_of_no_other() {
    let set = bands::diagonal(3);
    let forward = draw_chart(&reeds_script(&set, 1), &ChartOptions::default());
    assert!(forward.contains(">forward: left over right"));
    for absent in ["backward:", "forward-backward:", "leader"] {
        assert!(!forward.contains(absent), "{absent}");
    }
    let led = bands::led();
    let led = draw_chart(&plain_script(&led, 1), &ChartOptions::default());
    assert!(led.contains("the leader ties on the strand") && led.contains("the strand ties on the leader"));
    assert!(!led.contains("forward:"));
}

#[test]
fn a_row_has_one_number_at_the_side_where_it_begins() {
    let led = bands::led();
    assert_eq!(numbers(&shapes(&plain_script(&led, 1))), [(1, "left"), (2, "right")], "there and back");
    let steps = [(0, Kind::Forward), (3, Kind::Backward), (1, Kind::Forward), (2, Kind::Backward)];
    let both = Piece::tie(5, steps).unwrap();
    assert_eq!(numbers(&shapes(&plain_script(&both, 1))), [(1, "left"), (2, "right"), (3, "right")]);
}

#[test]
fn a_band_that_begins_in_the_second_gap_has_no_empty_row() {
    let set = Piece::tie(3, [(1, Kind::Forward), (1, Kind::Backward), (0, Kind::Forward)]).unwrap();
    let rows: Vec<u32> = numbers(&shapes(&plain_script(&set, 1))).into_iter().map(|(row, _)| row).collect();
    assert_eq!(rows, [1, 2, 3]);
}

#[test]
fn a_set_that_is_tied_alike_is_drawn_once() {
    let set = bands::of_all_kinds();
    let (once, often) = (shapes(&plain_script(&set, 1)), shapes(&plain_script(&set, 12)));
    assert_eq!(once.size, often.size);
    assert!(texts(&once).contains(&"Set") && texts(&often).contains(&"Set \u{d7} 12"));
    assert_eq!(often.block_of, [Some(0); 12]);
}

#[test]
fn sets_in_other_colors_are_drawn_until_the_colors_come_again() {
    let set = bands::diagonal(3);
    let chart = shapes(&reeds_script(&set, 7));
    assert_eq!(chart.block_of, [0, 1, 2, 0, 1, 2, 0].map(Some));
    for heading in ["Sets 1, 4, 7 \u{d7} 3", "Sets 2, 5 \u{d7} 2", "Sets 3, 6 \u{d7} 2"] {
        assert!(texts(&chart).contains(&heading), "{heading}: {:?}", texts(&chart));
    }
    let rows: Vec<u32> = numbers(&chart).into_iter().map(|(row, _)| row).collect();
    assert_eq!(rows, [1, 2, 1, 2, 1, 2], "every set is numbered from one");
}

#[test]
fn sets_that_are_not_drawn_are_named() {
    let set = bands::diagonal(3);
    let few = |sets| {
        WorkingChart::of(&reeds_script(&set, sets), &ChartOptions { most_sets: 2, ..ChartOptions::default() })
    };
    let chart = few(7);
    assert_eq!(chart.block_of, [Some(0), Some(1), None, Some(0), Some(1), None, Some(0)]);
    assert!(
        texts(&chart).contains(&"Sets 3, 6 are not shown here: follow the steps."),
        "{:?}",
        texts(&chart)
    );
    assert!(texts(&few(3)).contains(&"Set 3 is not shown here: follow the steps."));
    assert!(!texts(&few(2)).iter().any(|text| text.contains("not shown")));
}

#[test]
fn opening_sections_and_closing_are_marked() {
    let set = bands::of_all_kinds();
    let mut script = plain_script(&set, 2);
    script.opening = Some(bands::passage(&set));
    script.closing = Some(bands::passage(&set));
    script.period[0].events.insert(0, Event::Section("the tide comes in".into()));
    script.period[0].events.push(Event::SectionEnd);
    let chart = shapes(&script);
    let said = texts(&chart)
        .into_iter()
        .filter(|text| ["Opening", "Set \u{d7} 2", "the tide comes in", "Closing"].contains(text));
    assert_eq!(said.collect::<Vec<_>>(), ["Opening", "Set \u{d7} 2", "the tide comes in", "Closing"]);
}

#[test]
fn the_strands_are_shown_as_they_hang_where_that_is_news() {
    let there_and_back = Piece::tie(3, [(0, Kind::Forward), (0, Kind::Backward)]).unwrap();
    let closed = reeds_script(&there_and_back, 4);
    assert_eq!(hanging(&closed, &shapes(&closed)), [[0, 1, 2]], "at the start only");
    let set = bands::diagonal(3);
    let open = reeds_script(&set, 2);
    assert_eq!(hanging(&open, &shapes(&open)), [[0, 1, 2], [1, 2, 0], [2, 0, 1]], "at the end as well");
}

#[test]
fn every_knot_has_a_ribbon_in_its_place() {
    let set = bands::diagonal(3);
    let chart = shapes(&reeds_script(&set, 3));
    let mut places: Vec<String> =
        chart.blocks.iter().flat_map(|block| &block.knots).map(|knot| format!("{:?}", knot.middle)).collect();
    assert_eq!(places.len(), 6);
    places.sort_unstable();
    places.dedup();
    assert_eq!(places.len(), 6, "no two in one place");
}

#[test]
fn a_dark_ground_has_light_ink() {
    let ground = Rgb::new(0x1d, 0x20, 0x26);
    let set = bands::diagonal(3);
    let dark = draw_chart(&reeds_script(&set, 1), &ChartOptions { ground, ..ChartOptions::default() });
    assert!(
        dark.contains("<rect x=\"0\" y=\"0\"")
            && dark.contains(" fill=\"#1d2026\"/>")
            && dark.contains("font-size=\"11\" fill=\"#ffffff\"")
    );
}

#[test]
fn names_are_text_whatever_they_say() {
    let set = bands::diagonal(3);
    let mut script = reeds_script(&set, 1);
    script.threads[1].name = "<img src=x onerror=alert(1)>".into();
    script.title = "a & b".into();
    let chart = draw_chart(&script, &ChartOptions::default());
    assert!(!chart.contains("<img"));
    assert!(chart.contains("&lt;img src=x onerror=alert(1)&gt;"));
    assert!(chart.contains("<title>a &amp; b</title>"));
}

#[test]
fn nothing_to_tie_is_a_chart_without_rows() {
    let nothing = Piece::empty(3);
    let empty = TyingScript { strands: Vec::new(), ..plain_script(&nothing, 0) };
    for script in [reeds_script(&nothing, 1), empty] {
        let chart = draw_chart(&script, &ChartOptions::default());
        assert!(chart.ends_with("</svg>\n"));
        assert!(!chart.contains("<use"));
    }
}

/// What a document shows: left, top, width, height.
fn window(svg: &str) -> Vec<f64> {
    let start = svg.find("viewBox=\"").unwrap() + 9;
    svg[start..].split('"').next().unwrap().split(' ').map(|number| number.parse().unwrap()).collect()
}

/// A page of A4 has 186 mm between its margins, US Letter 254; a chart is printed 1.12 times as large as it says, in
/// pixels of CSS, of which 96 are an inch (CSS Values 4, section 6.2).
fn fits_on_paper(page: &[f64]) -> bool {
    let millimeters = |pixels: f64| pixels * 1.12 * 25.4 / 96.0;
    millimeters(page[2]) < 188.0 && millimeters(page[3]) < 254.0
}

fn rows_of(strands: usize, rows: usize) -> Piece {
    let row = |row: usize| (row % 2..strands - 1).step_by(2);
    Piece::tie(strands, (0..rows).flat_map(row).map(|gap| (u8::try_from(gap).unwrap(), Kind::Forward)))
        .unwrap()
}

/// A chart that goes on over several pages shows every line once, and is cut between lines.
#[test]
fn pages_show_all_of_a_chart_and_cut_no_line() {
    let set = rows_of(3, 90);
    let script = plain_script(&set, 1);
    let options = ChartOptions::default();
    let whole = window(&draw_chart(&script, &options));
    let pages = chart_pages(&script, &options);
    assert!(pages.len() > 1);
    let mut next = 0.0;
    for page in &pages {
        let seen = window(page);
        assert_eq!((seen[1] * 100.0).round(), (next * 100.0_f64).round());
        assert!(fits_on_paper(&seen), "{seen:?}");
        next += seen[3];
    }
    assert_eq!((next * 100.0).round(), (whole[3] * 100.0).round());
    assert_eq!(chart_pages(&plain_script(&bands::of_all_kinds(), 2), &options).len(), 1);
}

#[test]
fn small_numbers_can_be_read() {
    let set = bands::diagonal(6);
    for ground in ["#ffffff", "#fbf8f1", "#000000", "#16181c"] {
        let ground: Rgb = ground.parse().unwrap();
        let chart = draw_chart(&plain_script(&set, 1), &ChartOptions { ground, ..ChartOptions::default() });
        let small = chart.split("font-size=\"9.6\" fill=\"").nth(1).unwrap().split('"').next().unwrap();
        let contrast = small.parse::<Rgb>().unwrap().contrast(ground);
        assert!(contrast >= 4.5, "{small} on {ground}: {contrast}");
    }
}

#[test]
fn a_long_title_has_several_lines() {
    let set = bands::diagonal(3);
    let script = |title: &str| TyingScript { title: title.into(), ..plain_script(&set, 1) };
    let title = "Lanterns on the long wall above the harbor of the island, in the evening";
    let (short, long) = (shapes(&script("Lanterns")), shapes(&script(title)));
    let lines: Vec<(&[f64; 2], &str)> = long
        .marks
        .iter()
        .filter_map(|mark| match mark {
            ChartMark::Text { at, text, size: 16.0, .. } => Some((at, text.as_str())),
            _ => None,
        })
        .collect();
    assert!(lines.len() > 1 && lines.iter().all(|(_, text)| text.chars().count() < 44), "{lines:?}");
    assert_eq!(lines.iter().map(|(_, text)| *text).collect::<Vec<_>>().join(" "), title);
    assert!(long.legend > short.legend && lines[0].0[1] < lines[1].0[1]);
}

/// On a sheet, the heading of the chart and the chart's first page fit on one page of paper together.
#[test]
fn the_first_page_of_a_chart_leaves_room_for_its_heading() {
    let set = rows_of(3, 90);
    let sheet = write_sheet(&plain_script(&set, 1), &ProseOptions::default()).unwrap();
    let pages: Vec<&str> = sheet.split("id=\"chart-scroll\"").nth(1).unwrap().split("<svg").skip(1).collect();
    assert!(pages.len() > 1);
    // Printed at 1.12: with 11 mm of heading, 251 mm of US Letter paper.
    assert!(window(pages[0])[3] * 1.12 * 25.4 / 96.0 + 11.0 < 251.0, "{:?}", window(pages[0]));
}

/// What leads to the rows below it (a heading, the strands as they hang) is not the last line of a page.
#[test]
fn no_page_ends_with_a_heading() {
    let mut cuts = 0;
    for rows in 20..48 {
        let set = rows_of(3, rows);
        let script = reeds_script(&set, 3);
        let (chart, pages) = (shapes(&script), chart_pages(&script, &ChartOptions::default()));
        let leads = |mark: &ChartMark| match mark {
            ChartMark::Text { at, .. } | ChartMark::Hanging { at, .. } if at[1] > chart.legend => Some(at[1]),
            _ => None,
        };
        for page in &pages[1..] {
            let top = window(page)[1];
            let above = chart.marks.iter().filter_map(leads).find(|y| (top - 27.0..top).contains(y));
            assert_eq!(above, None, "{rows} rows: a page begins at {top}");
            cuts += 1;
        }
    }
    assert!(cuts > 28);
}

/// A set that has room on one page is not parted to fill up the page of the legend.
#[test]
fn a_set_that_fits_on_a_page_is_whole_on_it() {
    for rows in 4..27 {
        let set = rows_of(3, rows);
        let script = reeds_script(&set, 1);
        let (chart, pages) = (shapes(&script), chart_pages(&script, &ChartOptions::default()));
        let tops: Vec<f64> = pages.iter().map(|page| window(page)[1]).collect();
        for block in &chart.blocks {
            let on = |y: f64| tops.iter().filter(|top| **top <= y).count();
            let places: std::collections::BTreeSet<usize> =
                block.knots.iter().map(|knot| on(knot.middle.y)).collect();
            assert_eq!(places.len(), 1, "{rows} rows: pages begin at {tops:?}");
        }
    }
}

/// A chart that is wider than a page goes on beside: every knot is whole on one of the pages, and each page has the number
/// of every row that is on it.
#[test]
fn a_wide_chart_goes_on_beside_and_every_page_has_the_numbers_of_its_rows() {
    for strands in [25, 26, 40, 71, 200] {
        let set = rows_of(strands, 4);
        let script = plain_script(&set, 1);
        let (whole, pages) = (shapes(&script), chart_pages(&script, &ChartOptions::default()));
        let seen: Vec<Vec<f64>> = pages.iter().map(|page| window(page)).collect();
        assert!(seen.iter().all(|page| fits_on_paper(page)), "{strands}: {seen:?}");
        let narrowest = seen[1..].iter().map(|page| page[2]).fold(f64::INFINITY, f64::min);
        assert!(narrowest > 250.0, "{strands}: no page is nearly empty: {seen:?}");
        for knot in &whole.blocks[0].knots {
            let half = whole.cell.x;
            let is_whole = |page: &Vec<f64>| {
                let left = if page[0] > 0.0 { page[0] + 50.0 } else { 0.0 };
                knot.middle.x - half >= left && knot.middle.x + half <= page[0] + page[2]
            };
            assert!(seen[1..].iter().any(is_whole), "{strands}: {knot:?} in {seen:?}");
        }
        for (page, seen) in pages.iter().zip(&seen).skip(1) {
            let margin = page.rsplit_once("</g>").unwrap().1;
            let is_there = |row: u32| margin.contains(&format!(">{row}</text>"));
            let tagged = |row: u32| numbers(&whole).contains(&(row, "left"));
            assert!(
                (1..=4).all(|row| is_there(row) || (seen[0] == 0.0 && tagged(row))),
                "{strands}: {margin}"
            );
        }
    }
}

#[test]
fn ends_are_drawn_above_the_first_block_and_below_the_last() {
    let set = bands::diagonal(3);
    let bare = reeds_script(&set, 2);
    let plait = || Some(vec![EndWork::Plait { bundles: 3, length: 20.0 }]);
    let made = BandEnds { begin: plait(), finish: plait(), is_image: false };
    let (with, without) = (shapes(&TyingScript { made, ..bare.clone() }), shapes(&bare));
    assert!(without.ends.is_empty() && with.size.y > without.size.y + 100.0);
    let places = with.blocks.iter().flat_map(|block| &block.knots).map(|knot| knot.middle.y);
    let (first, last) = places.fold((f64::MAX, 0.0_f64), |(first, last), y| (first.min(y), last.max(y)));
    let (above, below): (Vec<f64>, Vec<f64>) =
        with.ends.iter().map(|cord| cord.path.start.y).partition(|y| *y < first);
    assert_eq!(above.len(), below.len(), "both are made alike");
    assert!(below.iter().all(|y| *y > last));
    // Without colors, what lies under something else is cut by a rim.
    let drawn = draw_chart(
        &TyingScript { made: BandEnds { begin: plait(), finish: None, is_image: false }, ..bare },
        &black_and_white(),
    );
    assert!(drawn.contains("stroke=\"#000000\" stroke-width=\"8\""), "{drawn}");
}

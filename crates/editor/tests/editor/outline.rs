//! Outline, folds, selections, tokens, colors, links, hints and lenses.

use crate::support::{Files, HEAD, at, checked, checked_samples, in_set};
use knotwright_editor::{
    FoldKind, HintOptions, Ink, QueryFit, Symbol, SymbolKind, code_lenses, color_presentations,
    document_colors, document_links, document_symbols, folding_ranges, inlay_hints, query_fit,
    selection_ranges, semantic_tokens, strand_orders, tokens_within, workspace_symbols,
};
use knotwright_grammar::{Span, TokenKind};
use knotwright_numbers::ToNumber;

fn drawn(symbols: &[Symbol], depth: usize) -> String {
    let line = |symbol: &Symbol| {
        format!(
            "{}{:?} {}\n{}",
            "  ".repeat(depth),
            symbol.kind,
            symbol.name,
            drawn(&symbol.children, depth + 1)
        )
    };
    symbols.iter().map(line).collect()
}

#[test]
fn the_outline_has_what_has_a_name() {
    let text = format!(
        "{HEAD}colorway \"dusk\" {{\n  thread kelp black\n}}\nmotif fan(size) {{\n  take left 1 as lead: forward size\n}}\n\
         set {{\n  both {{ section \"in\" {{ work fan(3) }} }}\n}}\n"
    );
    assert_eq!(
        drawn(&document_symbols(checked(&text).source()), 0),
        "Pattern Pier\nThread kelp\nThread foam\nThread sand\nColorway dusk\n  Thread kelp\nMotif fan\n  Label lead\nPart set\n  Section in\n"
    );
}

#[test]
fn names_lie_in_their_things_and_things_in_one_another() {
    fn sound(symbol: &Symbol) -> bool {
        let holds = |outer: Span, inner: Span| outer.start <= inner.start && inner.end <= outer.end;
        holds(symbol.span, symbol.name_span)
            && !symbol.name.is_empty()
            && symbol.children.iter().all(|child| holds(symbol.span, child.span) && sound(child))
    }
    for checked in checked_samples() {
        assert!(document_symbols(checked.source()).iter().all(sound), "{}", checked.source().path);
    }
}

#[test]
fn things_of_the_workspace_know_what_they_stand_in() {
    let text = format!("{HEAD}set {{\n  section \"fans\" {{ meet center }}\n}}\n");
    let found = workspace_symbols(checked(&text).source());
    let (section, container) = found.last().unwrap();
    assert_eq!(
        (section.kind, section.name.as_str(), container.as_deref()),
        (SymbolKind::Section, "fans", Some("set"))
    );
}

#[test]
fn what_begins_a_name_or_a_word_of_it_fits_better_than_letters_anywhere() {
    let cases = [
        ("har", "Harbor vine", Some(QueryFit::Name)),
        ("", "x", Some(QueryFit::Name)),
        ("VI", "Harbor vine", Some(QueryFit::Word)),
        ("vine", "harbor-vine", Some(QueryFit::Word)),
        ("hvn", "Harbor vine", Some(QueryFit::Letters)),
        ("nv", "vn", None),
    ];
    for (query, name, fit) in cases {
        assert_eq!(query_fit(query, name), fit, "{query} in {name}");
    }
    let mut names = ["Solving", "Vine", "Harbor vine"];
    names.sort_by_key(|name| query_fit("vin", name));
    assert_eq!(names, ["Vine", "Harbor vine", "Solving"]);
}

#[test]
fn blocks_comments_and_neighbors_fold() {
    let text = format!("-- one\n-- two\n\n-- three\n{HEAD}set {{\n  rows {{\n    x . . .\n  }}\n}}\n");
    let checked = checked(&text);
    let found = folding_ranges(checked.source());
    let lines = |span: Span| span.of(&text).lines().count();
    let seen: Vec<_> = found.iter().map(|fold| (fold.kind, lines(fold.span))).collect();
    assert_eq!(
        seen,
        [(FoldKind::Comments, 2), (FoldKind::Threads, 3), (FoldKind::Statement, 4), (FoldKind::Statement, 3)]
    );
}

#[test]
fn selections_grow_from_the_word_to_the_file() {
    let (checked, offset) = in_set("both { take left 2: forward 1 over ke‸lp, backward 1 }");
    let spans = selection_ranges(checked.source(), offset);
    let texts: Vec<&str> = spans.iter().map(|span| span.of(checked.text())).collect();
    assert_eq!(
        texts[..5],
        [
            "kelp",
            "forward 1 over kelp",
            "forward 1 over kelp, backward 1",
            "take left 2: forward 1 over kelp, backward 1",
            "{ take left 2: forward 1 over kelp, backward 1 }"
        ]
    );
    assert_eq!(texts.last(), Some(&checked.text()));
}

#[test]
fn selections_are_nested_everywhere() {
    for checked in checked_samples() {
        for offset in (0..checked.text().len().to_u32()).step_by(7) {
            let spans = selection_ranges(checked.source(), offset);
            let nested =
                spans.windows(2).all(|pair| pair[1].start <= pair[0].start && pair[0].end <= pair[1].end);
            assert!(nested && spans.iter().all(|span| span.touches(offset)));
        }
    }
}

#[test]
fn every_token_but_punctuation_has_one_ink() {
    use TokenKind::*;
    let silent = [OpenBrace, CloseBrace, OpenParen, CloseParen, Comma, Colon, Pipe, Newline];
    for checked in checked_samples() {
        let wanted: Vec<Span> = checked
            .source()
            .parsed
            .tokens
            .iter()
            .filter(|t| !silent.contains(&t.kind))
            .map(|t| t.span)
            .collect();
        let found = semantic_tokens(checked.source());
        assert_eq!(found.iter().map(|token| token.span).collect::<Vec<_>>(), wanted);
        let unknown: Vec<&str> =
            found.iter().filter(|t| t.ink == Ink::Unknown).map(|t| t.span.of(checked.text())).collect();
        assert!(unknown.is_empty(), "{}: {unknown:?}", checked.source().path);
    }
}

#[test]
fn words_are_inked_by_where_they_stand() {
    let text = "pattern \"T\"\nthread start-line navy\nthread down red\nstrands start-line 3 down\nlength 4 cm\n\
                set {\n  take down 1 from left as lead: forward-backward 2\n  rows {\n    x x\n  }\n}\n";
    let checked = checked(text);
    let ink = |word: &str, nth: usize| {
        let at = text.match_indices(word).nth(nth).unwrap().0.to_u32();
        semantic_tokens(checked.source())
            .into_iter()
            .find(|token| token.span.start == at)
            .map(|token| (token.ink, token.gives))
            .unwrap()
    };
    assert_eq!(ink("start-line", 0), (Ink::Thread, true));
    assert_eq!(ink("navy", 0), (Ink::Color, false));
    assert_eq!(ink("down", 1), (Ink::Thread, false));
    assert_eq!(ink("cm", 0), (Ink::Unit, false));
    assert_eq!(ink("take", 0), (Ink::Statement, false));
    assert_eq!(ink("from", 0), (Ink::Place, false));
    assert_eq!(ink("lead", 0), (Ink::Label, true));
    assert_eq!(ink("forward-backward", 0), (Ink::Kind, false));
    assert_eq!(ink("x x", 0), (Ink::Mark, false));
    let line = text.find("length").unwrap();
    assert_eq!(tokens_within(checked.source(), Span::new(line, line + 11)).len(), 3);
}

#[test]
fn colors_are_found_and_written_otherwise() {
    let checked = checked(HEAD);
    let text = "pattern \"A\"\nthread dusk navy 5 cm, #fff 5 cm \"evening\"\ncolorway \"fog\" { thread dusk gray 1 cm, silver 1 cm }\n";
    let changing = crate::support::checked(text);
    let of_each: Vec<&str> =
        document_colors(changing.source()).iter().map(|color| color.span.of(text)).collect();
    assert_eq!(of_each, ["navy", "#fff", "gray", "silver"]);
    let found = document_colors(checked.source());
    let written: Vec<&str> = found.iter().map(|color| color.span.of(HEAD)).collect();
    assert_eq!(written, ["#1f5d50", "#f4f1e8", "goldenrod"]);
    assert_eq!(color_presentations(found[2].color), ["#daa520", "goldenrod"]);
    // CSS Color 4 has two names for this one.
    assert_eq!(color_presentations("#00ffff".parse().unwrap()), ["#00ffff", "aqua", "cyan"]);
}

#[test]
fn links_lead_to_files_that_are_there() {
    let files = Files::new(&[
        ("band.knot", "pattern \"B\"\nuse fan from \"lib.knot\"\nuse gone from \"gone.knot\"\n"),
        ("lib.knot", "pattern \"L\"\nmotif fan() {\n}\n"),
    ]);
    let checked = files.checked("band.knot");
    let found = document_links(&checked);
    assert_eq!(found.len(), 1);
    assert_eq!((found[0].span.of(checked.text()), found[0].target.as_str()), ("lib.knot", "lib.knot"));
}

/// The text with its hints in brackets.
fn hinted(marked: &str, options: HintOptions) -> String {
    let (checked, _) = in_set(&format!("‸{marked}"));
    let text = checked.text();
    let mut shown = text.to_owned();
    for hint in inlay_hints(&checked, Span::new(0, text.len()), options).iter().rev() {
        shown.insert_str(hint.offset.to_usize(), &format!(" [{}]", hint.label));
    }
    shown[shown.find("set {\n").unwrap() + 6..shown.len() - 3].to_owned()
}

#[test]
fn hints_tell_the_order_after_each_step() {
    let all = HintOptions::default();
    assert_eq!(
        hinted("both { take left 1: forward 3 }\nmeet center", all),
        "both { take left 1: forward 3 [→ kelp foam sand kelp sand foam 2 kelp] }\nmeet center [→ kelp foam sand kelp | mirror]"
    );
    assert_eq!(
        hinted("take left 1: forward 3", HintOptions { orders: false, ..all }),
        "take left 1: forward 3"
    );
}

#[test]
fn hints_at_one_place_read_from_left_to_right() {
    assert_eq!(
        hinted("take left 1: forward to edge", HintOptions::default()),
        "take left 1: forward to edge [= 7] [→ kelp foam 2 sand foam 3 kelp]"
    );
}

#[test]
fn long_names_are_letters_in_a_hint_and_whole_in_its_tooltip() {
    let (one, other, third) = ("seaweed-after-the-storm", "sand-under-the-pier", "rope");
    let head = format!(
        "pattern \"A\"\nthread {one} navy\nthread {other} tan\nthread {third} red\n\
         strands {one} {other} {third} {one}\nset {{\n  take left 1: forward 2\n}}\n"
    );
    let checked = checked(&head);
    let hints = inlay_hints(&checked, Span::new(0, head.len()), HintOptions::default());
    // Each thread has the first letter of its name that is free, as in a chart.
    assert_eq!(hints[0].label, "→ A R 2 S");
    assert!(hints[0].tooltip.ends_with(&format!("`{other} {third} 2 {one}`")), "{}", hints[0].tooltip);
    let orders = strand_orders(&checked, Span::new(0, head.len()));
    let letters: String = orders[0].strands.iter().map(|strand| strand.letter).collect();
    assert_eq!(letters, "ARSS", "those who paint have the same letters");
}

#[test]
fn hints_tell_what_an_extent_came_to() {
    let extents = HintOptions { orders: false, extents: true };
    assert_eq!(
        hinted(
            "take left 1: forward over kelp, forward until foam, backward to edge\n  then to center left",
            extents
        )
        .replace("[= ", "["),
        // `until foam` begins at foam: an error, and no knot.
        "take left 1: forward over kelp [1], forward until foam [0], backward to edge [1]\n  then to center left [0]"
    );
    assert_eq!(
        hinted("mirrored { take left 1: forward until sand, forward 1, backward to left 2 }", extents),
        "mirrored { take left 1: forward until sand [= 2], forward 1, backward to left 2 [= 2] }"
    );
}

#[test]
fn hints_of_a_part_are_those_of_the_whole() {
    for checked in checked_samples() {
        let whole = inlay_hints(&checked, Span::new(0, checked.text().len()), HintOptions::default());
        let middle = checked.text().len() / 2;
        let half = inlay_hints(&checked, Span::new(0, middle), HintOptions::default());
        assert!(half.iter().all(|hint| whole.contains(hint)), "{}", checked.source().path);
    }
}

#[test]
fn lenses_tell_when_the_set_closes_and_how_large_it_is() {
    let text = HEAD.replace("strands", "gauge { thickness 1 mm }\nlength 15 cm\nstrands");
    let (checked, _) =
        at(&format!("‸{text}motif fan() {{\n}}\nset {{\n  take left 1: forward to edge\n  work fan()\n}}\n"));
    let titles: Vec<String> = code_lenses(&checked).into_iter().map(|lens| lens.title).collect();
    assert_eq!(titles.len(), 2);
    assert_eq!(titles[0], "worked in 1 place");
    assert!(titles[1].starts_with("closes after 8 sets · 7 knots · 7 rows · "), "{}", titles[1]);
    assert!(
        titles[1].ends_with("15 cm") || titles[1].ends_with("14.9 cm") || titles[1].ends_with("15.1 cm"),
        "{}",
        titles[1]
    );
}

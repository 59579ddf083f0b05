//! All words but the reserved ones are names wherever a name may stand, and mean themselves everywhere else.

mod support;

use knotwright_grammar::{ProblemKind, parse, words};
use support::{accept, problems, tree};

/// Files in which `NAME` is one kind of name, in every place where that kind may stand.
const FILES: [(&str, &str); 5] = [
    (
        "thread",
        r#"thread NAME #fff "white"
thread other NAME
colorway "night" { thread NAME black }
strands 3 NAME, NAME 2 NAME | NAME | mirror
strands from left NAME 2 NAME, from right NAME
strands 2 NAME 3 mm | NAME NAME
begin {
  wrap NAME 8 turns
}
finish {
  slide NAME 8 turns
}
set {
  take NAME 1 from left (NAME) as scout: forward 3 over NAME, backward over NAME, forward until NAME then over NAME
  take NAME 2 right of center: backward 1
  take left 2 (NAME): forward to edge
  leader right 1 (NAME) { . # }
  join NAME 2 from right with NAME in set 3
  work fan(NAME, NAME) mirrored
  expect NAME 2 NAME
  expect NAME | mirror
}
"#,
    ),
    (
        "motif",
        r#"use NAME, NAME from "fans.knot"
motif NAME() { }
motif NAME(size) on 4 { meet center }
set {
  work NAME()
  both { work NAME(3) mirrored }
}
"#,
    ),
    (
        "parameter",
        r#"motif fan(NAME) { }
motif fan(size, NAME) on 3 {
  take left NAME: forward NAME
  take left NAME + 1 (foam): forward NAME * 2 over foam, backward NAME down to NAME by NAME
  take left (NAME - 1): forward NAME, backward to left NAME then NAME then NAME, then NAME
  take foam NAME from right: forward (NAME)
  on left NAME { }
  on inside NAME - 1 { }
  on NAME to NAME + 2 { }
  repeat NAME { }
  join left NAME in set NAME
  for k NAME up to NAME by NAME { }
  work hem(NAME, NAME + NAME)
  expect (NAME) foam NAME
}
"#,
    ),
    (
        "label",
        r#"set {
  take left 1 as NAME: forward 2
  take left 1 (foam) as NAME: forward 2
  take NAME: forward 2
  join NAME with foam
  take NAME (foam): forward 2
  take NAME as NAME: forward 2
  leader NAME { . }
  leader NAME (foam) { . }
}
"#,
    ),
    (
        "loop variable",
        r#"set {
  for NAME 4 down to 1 { take left NAME: forward NAME }
  for NAME NAME up to NAME by NAME { repeat NAME { } }
}
"#,
    ),
];

#[test]
fn every_word_of_the_notation_is_a_name() {
    for (kind, file) in FILES {
        let plain = tree(&accept(&file.replace("NAME", "zzz")).tree);
        for word in words::WORDS.iter().map(|word| word.text).filter(|word| !words::is_reserved(word)) {
            let text = file.replace("NAME", word);
            assert_eq!(tree(&accept(&text).tree), plain.replace("zzz", word), "{kind} {word}");
        }
    }
}

#[test]
fn reserved_words_are_reported_as_such_where_a_name_is_given() {
    let given = ["thread NAME #fff", "motif NAME() { }", "motif fan(NAME) { }", "use NAME from \"a.knot\""];
    let within = ["take left 1 as NAME: forward 1", "for NAME 1 up to 2 { }", "work NAME()", "expect NAME"];
    let within = within.map(|line| format!("set {{ {line} }}"));
    for file in given.map(str::to_owned).into_iter().chain(within) {
        for word in words::RESERVED {
            let text = file.replace("NAME", word);
            let parsed = parse(&text);
            let reported = matches!(&parsed.problems[..], [one] if one.kind == ProblemKind::ReservedName && one.span.of(&text) == *word);
            assert!(reported || text.contains("expect start"), "{text}: {}", problems(&parsed, &text));
        }
    }
}

#[test]
fn the_two_lists_of_reserved_words_agree() {
    for word in words::WORDS {
        let listed = words::RESERVED.contains(&word.text);
        assert_eq!(words::is_reserved(word.text), listed, "{}", word.text);
        assert!(listed || !matches!(word.role, words::Role::Kind | words::Role::Place), "{}", word.text);
    }
    for word in words::RESERVED {
        assert!(words::is_reserved(word) && words::WORDS.iter().any(|known| known.text == *word), "{word}");
    }
}

/// The forms in the table are those of the parser: each statement word stands first in its own form, once.
#[test]
fn the_table_of_words_is_in_order() {
    for word in words::WORDS {
        assert!(word.form.contains(word.text) || word.text == "rows", "{word:?}");
        assert!(word.help.ends_with('.'), "{word:?}");
    }
    for word in words::all_statements().map(|known| known.word) {
        assert!(word.form.starts_with(word.text), "{word:?}");
        let alike = |other: &&words::Word| other.text == word.text && other.role == word.role;
        assert_eq!(words::WORDS.iter().filter(alike).count(), 1, "{word:?}");
    }
}

#[test]
fn names_are_compared_in_nfc() {
    let composed = tree(&accept("thread \u{e9}cume #fff\n").tree);
    let decomposed = tree(&accept("thread e\u{301}cume #fff\n").tree);
    assert_eq!(composed, decomposed);
    assert_eq!(composed, "thread \u{e9}cume = #fff\n");
}

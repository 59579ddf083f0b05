//! Values that belong together have a type with a name: no tuple is a parameter of a function, and few functions have many.

use crate::files;

/// The most tuples that may stay.
const MOST: usize = 5;

/// How many parameters are many, besides `self`: no function has more.
const MANY: usize = 5;

/// The most functions with that many that may stay.
const MOST_WITH_MANY: usize = 10;

/// Of every function in a text, its name and its parameters as they are written.
fn functions(code: &str) -> Vec<(&str, &str)> {
    let mut found = Vec::new();
    let mut rest = code;
    while let Some(at) = rest.find("fn ") {
        let is_word = rest[..at].chars().next_back().is_none_or(|letter| letter.is_whitespace());
        rest = &rest[at + 3..];
        let name =
            rest.split(|letter: char| !letter.is_alphanumeric() && letter != '_').next().unwrap_or_default();
        if !is_word || name.is_empty() {
            continue;
        }
        if let Some(parameters) = within_parentheses(after_generics(&rest[name.len()..])) {
            found.push((name, parameters));
        }
    }
    found
}

/// What follows `<...>`, if that comes first.
fn after_generics(text: &str) -> &str {
    if !text.starts_with('<') {
        return text;
    }
    let (mut depth, mut before) = (0_usize, ' ');
    for (at, letter) in text.char_indices() {
        match letter {
            '<' => depth += 1,
            '>' if before != '-' => depth -= 1,
            _ => {}
        }
        if depth == 0 {
            return &text[at + 1..];
        }
        before = letter;
    }
    ""
}

fn within_parentheses(text: &str) -> Option<&str> {
    let inner = text.strip_prefix('(')?;
    let mut depth = 1_usize;
    let end = inner.char_indices().find(|(_, letter)| {
        match letter {
            '(' => depth += 1,
            ')' => depth -= 1,
            _ => {}
        }
        depth == 0
    })?;
    Some(&inner[..end.0])
}

/// How many parameters are tuples, or references to tuples.
fn tuples(parameters: &str) -> usize {
    let types = parameters.match_indices(": ").map(|(at, _)| &parameters[at + 2..]);
    types
        .filter(|text| text.trim_start_matches(['&', ' ']).trim_start_matches("mut ").starts_with('('))
        .count()
}

/// How many parameters there are besides `self`.
fn besides_self(parameters: &str) -> usize {
    let (mut depth, mut before) = (0_usize, ' ');
    let split = parameters.split(|letter: char| {
        match letter {
            '(' | '[' | '<' => depth += 1,
            ')' | ']' => depth -= 1,
            '>' if before != '-' => depth -= 1,
            _ => {}
        }
        before = letter;
        letter == ',' && depth == 0
    });
    split.filter(|one| one.contains(':') && !one.starts_with("self:")).count()
}

#[test]
fn few_functions_have_many_parameters() {
    let mut found = Vec::new();
    for (path, code) in files::sources() {
        for (name, parameters) in functions(&code) {
            let parameters = besides_self(parameters);
            assert!(parameters <= MANY, "{}: {name} has {parameters} parameters", path.display());
            if parameters == MANY {
                found.push(format!("{}: {name}", path.display()));
            }
        }
    }
    assert!(found.len() <= MOST_WITH_MANY, "{} functions have {MANY} parameters: {found:#?}", found.len());
}

#[test]
fn no_tuple_is_a_parameter() {
    let mut found = Vec::new();
    for (path, code) in files::sources() {
        for (name, parameters) in functions(&code) {
            found.extend(std::iter::repeat_n(format!("{}: {name}", path.display()), tuples(parameters)));
        }
    }
    println!("{} tuples are parameters", found.len());
    assert!(found.len() <= MOST, "{} tuples are parameters: {found:#?}", found.len());
}

#[test]
fn tuples_among_parameters_are_counted() {
    let code = "fn plain(a: u8, b: &[(u8, u8)]) {}\n\
                pub(crate) fn pair<F: Fn(u8) -> (u8, u8)>(\n    (a, b): (u8, u8),\n    c: &(u8, u8),\n    f: F,\n) {}\n\
                let asks = |pair: (u8, u8)| pair;\n";
    let counted: Vec<_> =
        functions(code).into_iter().map(|(name, parameters)| (name, tuples(parameters))).collect();
    assert_eq!(counted, [("plain", 0), ("pair", 2)]);
}

#[test]
fn parameters_are_counted() {
    let code = "fn none(&self) {}\n\
                fn two<'a>(self: Box<Self>, a: &[(u8, u8)],\n    b: Map<u8, fn(u8, u8) -> Vec<u8>>,\n) {}\n";
    let counted: Vec<_> =
        functions(code).into_iter().map(|(name, parameters)| (name, besides_self(parameters))).collect();
    assert_eq!(counted, [("none", 0), ("two", 2)]);
}

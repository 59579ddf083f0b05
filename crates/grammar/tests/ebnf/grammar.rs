//! Reads EBNF as the W3C writes it (XML 1.0, section 6): `Name ::= ...`, `'literal'`, `[class]`, `( )`, `|`, `? * +`.

use std::collections::BTreeMap;

/// The right-hand side of a rule, or a part of one.
#[derive(Debug, Clone, PartialEq)]
pub enum Part {
    Literal(String),
    Class(Class),
    Rule(String),
    Sequence(Vec<Part>),
    Choice(Vec<Part>),
    Optional(Box<Part>),
    /// None or more.
    Many(Box<Part>),
    /// One or more.
    Some(Box<Part>),
}

/// `[a-z]`, `[^a-z]`
#[derive(Debug, Clone, PartialEq)]
pub struct Class {
    pub negated: bool,
    pub ranges: Vec<(char, char)>,
}

impl Class {
    pub fn holds(&self, character: char) -> bool {
        self.ranges.iter().any(|(from, to)| (*from..=*to).contains(&character)) != self.negated
    }
}

/// All rules by name, and their names in the order they stand.
#[derive(Debug, Clone)]
pub struct Grammar {
    pub rules: BTreeMap<String, Part>,
    pub order: Vec<String>,
}

impl Grammar {
    pub fn read(text: &str) -> Self {
        let text = without_comments(text);
        let mut reader = Reader { rest: &text };
        let mut grammar = Self { rules: BTreeMap::new(), order: Vec::new() };
        while let Some(name) = reader.rule_name() {
            let part = reader.choice();
            assert!(grammar.rules.insert(name.clone(), part).is_none(), "{name} stands there twice");
            grammar.order.push(name);
        }
        assert_eq!(reader.rest.trim(), "", "not understood");
        grammar
    }

    /// The names of rules that are used but not written, and of rules that `start` never leads to.
    pub fn loose_ends(&self, start: &str, also: &[&str]) -> Vec<String> {
        let mut reached = vec![start.to_owned()];
        reached.extend(also.iter().map(|name| (*name).to_owned()));
        let mut at = 0;
        let mut loose = Vec::new();
        while at < reached.len() {
            match self.rules.get(&reached[at]) {
                None => loose.push(reached[at].clone()),
                Some(part) => names_in(part, &mut reached),
            }
            at += 1;
        }
        loose.extend(self.order.iter().filter(|name| !reached.contains(name)).cloned());
        loose
    }
}

impl Part {
    /// This grammar with all literals cut into their letters.
    pub fn spelled(&self) -> Self {
        let all = |parts: &[Self]| parts.iter().map(Self::spelled).collect();
        match self {
            Self::Literal(text) => {
                Self::Sequence(text.chars().map(|letter| Self::Literal(letter.to_string())).collect())
            }
            Self::Sequence(parts) => Self::Sequence(all(parts)),
            Self::Choice(parts) => Self::Choice(all(parts)),
            Self::Optional(part) => Self::Optional(part.spelled().into()),
            Self::Many(part) => Self::Many(part.spelled().into()),
            Self::Some(part) => Self::Some(part.spelled().into()),
            other => other.clone(),
        }
    }
}

fn names_in(part: &Part, names: &mut Vec<String>) {
    match part {
        Part::Rule(name) if !names.contains(name) => names.push(name.clone()),
        Part::Sequence(parts) | Part::Choice(parts) => parts.iter().for_each(|part| names_in(part, names)),
        Part::Optional(part) | Part::Many(part) | Part::Some(part) => names_in(part, names),
        _ => {}
    }
}

fn without_comments(text: &str) -> String {
    let mut out = String::new();
    let mut rest = text;
    while let Some(at) = rest.find("/*") {
        let (before, comment) = rest.split_at(at);
        out.push_str(before);
        rest = comment.split_once("*/").expect("a comment ends").1;
    }
    out + rest
}

struct Reader<'t> {
    rest: &'t str,
}

impl Reader<'_> {
    fn peek(&mut self) -> Option<char> {
        self.rest = self.rest.trim_start();
        self.rest.chars().next()
    }

    fn eat(&mut self, text: &str) -> bool {
        self.rest = self.rest.trim_start();
        let after = self.rest.strip_prefix(text);
        self.rest = after.unwrap_or(self.rest);
        after.is_some()
    }

    /// A name before `::=`, which is eaten too.
    fn rule_name(&mut self) -> Option<String> {
        let (name, after) = self.rest.split_once("::=")?;
        let name = name.trim();
        assert!(name.chars().all(char::is_alphanumeric), "{name:?} is no name of a rule");
        self.rest = after;
        Some(name.to_owned())
    }

    fn choice(&mut self) -> Part {
        let mut parts = vec![self.sequence()];
        while self.eat("|") {
            parts.push(self.sequence());
        }
        if parts.len() == 1 { parts.remove(0) } else { Part::Choice(parts) }
    }

    fn sequence(&mut self) -> Part {
        let mut parts = Vec::new();
        while let Some(part) = self.repeated() {
            parts.push(part);
        }
        assert!(!parts.is_empty(), "nothing stands before {:.40}", self.rest);
        if parts.len() == 1 { parts.remove(0) } else { Part::Sequence(parts) }
    }

    fn repeated(&mut self) -> Option<Part> {
        let part = self.single()?;
        Some(match self.rest.chars().next() {
            Some('?') => self.after_sign(Part::Optional(part.into())),
            Some('*') => self.after_sign(Part::Many(part.into())),
            Some('+') => self.after_sign(Part::Some(part.into())),
            _ => part,
        })
    }

    fn after_sign(&mut self, part: Part) -> Part {
        self.rest = &self.rest[1..];
        part
    }

    fn single(&mut self) -> Option<Part> {
        match self.peek()? {
            quote @ ('\'' | '"') => {
                let (literal, after) = self.rest[1..].split_once(quote).expect("a literal ends");
                self.rest = after;
                Some(Part::Literal(literal.to_owned()))
            }
            '(' => {
                self.rest = &self.rest[1..];
                let inner = self.choice();
                assert!(self.eat(")"), "no `)` before {:.40}", self.rest);
                Some(inner)
            }
            '[' => Some(self.class()),
            '#' => {
                let character = self.character();
                Some(Part::Class(Class { negated: false, ranges: vec![(character, character)] }))
            }
            first if first.is_alphabetic() => self.rule(),
            _ => None,
        }
    }

    /// The name of a rule, unless the next rule begins with it.
    fn rule(&mut self) -> Option<Part> {
        let end = self.rest.find(|c: char| !c.is_alphanumeric()).unwrap_or(self.rest.len());
        let (name, after) = self.rest.split_at(end);
        if after.trim_start().starts_with("::=") {
            return None;
        }
        self.rest = after;
        Some(Part::Rule(name.to_owned()))
    }

    fn class(&mut self) -> Part {
        self.rest = &self.rest[1..];
        let negated = self.eat("^");
        let mut ranges = Vec::new();
        while !self.rest.starts_with(']') {
            let from = self.character();
            let more = self.rest.strip_prefix('-').filter(|rest| !rest.starts_with(']'));
            self.rest = more.unwrap_or(self.rest);
            let to = if more.is_some() { self.character() } else { from };
            ranges.push((from, to));
        }
        self.rest = &self.rest[1..];
        Part::Class(Class { negated, ranges })
    }

    /// One character, as itself or as `#x` and its number in hexadecimal.
    fn character(&mut self) -> char {
        if let Some(digits) = self.rest.strip_prefix("#x") {
            let end = digits.find(|c: char| !c.is_ascii_hexdigit()).unwrap_or(digits.len());
            self.rest = &digits[end..];
            let number = u32::from_str_radix(&digits[..end], 16).expect("a number");
            return char::from_u32(number).expect("a character");
        }
        let character = self.rest.chars().next().expect("a character");
        self.rest = &self.rest[character.len_utf8()..];
        character
    }
}

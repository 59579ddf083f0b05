//! What people write, and what the notation says for it: `3 forward` for `forward 3`, `1st left` for `left 1`. Each way
//! to say it otherwise is tried, and offered only if the statement reads on with it. Where one is not enough (`left 1: two
//! forward`), what is left is said otherwise in turn.

mod braces;
mod calls;
mod charts;
mod doubled;
mod end_pieces;
mod gauge;
mod given;
mod heads;
mod imports;
mod lengths;
mod marks;
mod measured;
mod openings;
mod orphans;
mod parameters;
mod parts;
mod places;
mod ranges;
mod reach;
mod remarks;
mod signs;
mod slips;
mod steps;
mod twins;
mod vocabulary;
mod within;
mod words;

pub(crate) use braces::mend_braces;
pub(crate) use doubled::leave_out_double;
pub(crate) use given::GivenNames;
pub(crate) use orphans::Orphans;
pub(crate) use parameters::name_parameters;
pub(crate) use reach::{Reach, reach_of};
pub(crate) use steps::number_said;
pub(crate) use twins::Twins;

use crate::wording::write_in_places;
use crate::{Edit, FileId, Mend, Place, Source};
use knotwright_grammar::tree::{
    BeginBlock, Chart, ColorwayBlock, FinishBlock, GaugeBlock, LeaderChart, SplitBlock, Statement, Tree,
};
use knotwright_grammar::{Belongs, Parsed, Problem, ProblemKind, Span, Token, TokenKind, apply_edits, parse};
use std::mem::discriminant;

/// Longer statements are not written otherwise.
const LONGEST: usize = 200;

/// How many words of one statement are said otherwise, one after the other; in how many statements of a file; and in how
/// long ones. Each step costs as much as all before it, times the phrases that fit.
const MOST_STEPS: usize = 3;
const MOST_IN_STEPS: usize = 8;
const LONGEST_IN_STEPS: usize = 24;

/// A statement that does not read, written as the notation has it.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Rephrased {
    /// What is not so in the notation, as a sentence.
    pub(crate) says: String,
    /// What to write, as a person would say it, the best way first.
    pub(crate) write: Vec<String>,
    /// The ways to put it right, the best first.
    pub(crate) mends: Vec<Mend>,
}

/// A way to say it otherwise.
struct Phrase {
    says: String,
    /// The ways to put it right. Only those are kept with which the statement reads.
    ways: Vec<Rewording>,
}

/// Edits, and what is written by them.
struct Rewording {
    write: String,
    edits: Vec<(Span, String)>,
    /// What is written so in other statements, too.
    elsewhere: Vec<(Span, String)>,
    is_guess: bool,
}

impl Phrase {
    fn new(says: impl Into<String>, ways: Vec<Rewording>) -> Self {
        Self { says: says.into(), ways }
    }
}

impl Rewording {
    fn new(write: impl Into<String>, edits: Vec<(Span, String)>) -> Self {
        Self { write: write.into(), edits, elsewhere: Vec::new(), is_guess: false }
    }

    /// One piece in place of another.
    fn instead(span: Span, text: impl Into<String>) -> Self {
        let text = text.into();
        Self::new(text.trim().to_owned(), vec![(span, text)])
    }

    /// What only the author knows.
    fn guess(self) -> Self {
        Self { is_guess: true, ..self }
    }
}

/// Where a statement stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum BlockSort {
    Top,
    Gauge,
    Body,
    /// `begin`, `finish`, and a `split` in them.
    Ends,
    Leader,
    Colorway,
}

/// The words of a statement that does not read, between line breaks and braces.
struct UnreadLine<'a> {
    source: &'a Source,
    given: &'a GivenNames<'a>,
    problem: &'a Problem,
    tokens: Vec<Token>,
    around: BlockSort,
}

/// A way to say it otherwise, if it is one for that line.
type PhraseOf = fn(&UnreadLine) -> Option<Phrase>;

/// All ways, the most particular first.
static PHRASES: &[PhraseOf] = &[
    words::meant,
    slips::doubled,
    remarks::rephrase_comment,
    steps::list_mark,
    steps::capitals,
    gauge::swatch,
    vocabulary::how_often,
    remarks::times_first,
    charts::face_promise,
    charts::face_keys,
    charts::chart,
    vocabulary::label,
    vocabulary::work,
    vocabulary::bead_on_strand,
    vocabulary::first_word,
    remarks::other_words,
    vocabulary::main_part,
    vocabulary::mirror_block,
    vocabulary::repeated_block,
    steps::no_take,
    parts::part,
    calls::motif,
    calls::arguments,
    lengths::length,
    heads::other_head,
    heads::quoted_title,
    heads::thread_turned,
    heads::set_or_sets,
    within::inner_quotes,
    heads::other_language,
    imports::import,
    heads::list,
    measured::bead_in_order,
    measured::shades,
    vocabulary::thread,
    vocabulary::text_alone,
    vocabulary::start,
    vocabulary::unnamed_step,
    ranges::range,
    words::rephrase_ordinal,
    steps::place_without_side,
    places::thread_place,
    words::times_sign,
    steps::short_kind,
    words::number_first,
    steps::no_kind,
    steps::spelled_number,
    within::often,
    words::second_mirror,
    words::color_in_two,
    places::rephrase_middle,
    places::until_place,
    places::side_of_edge,
    places::all_the_way,
    reach::over_all,
    places::over_number,
    places::count_and_goal,
    places::to_number,
    places::to_thread,
    places::meet,
    places::leader_place,
    places::take_of_chart,
    heads::pairs,
    calls::apart,
    steps::promise,
    within::promise_first,
    steps::runs,
    ranges::each_strand_of_bead,
    steps::strands_of_bead,
    within::word,
    within::side_by_side,
    within::mirrored_first,
    within::letter_height,
    within::parameters,
    within::counting_name,
    within::quotes,
    within::no_quotes,
    within::straight_quotes,
    signs::add_unit,
    signs::add_sign,
    words::idle_word,
    steps::counter,
    signs::add_space,
    within::commas,
    within::comma_before_text,
    signs::idle_sign,
    signs::add_word,
    end_pieces::piece,
    within::idle_number,
    slips::exchanged,
    within::before_brace,
    steps::count,
];

/// Ways to say what begins with a word that is like another one of the notation.
static OF_FIRST_WORD: &[PhraseOf] = &[
    steps::capitals,
    parts::part,
    charts::chart,
    vocabulary::label,
    vocabulary::first_word,
    vocabulary::main_part,
    vocabulary::mirror_block,
    vocabulary::work,
    vocabulary::bead_on_strand,
    within::mirrored_first,
];

/// How the notation says what does not read at `problem`; `None` if that is not known. `given`: the names of its file.
pub(crate) fn rephrase_problem(problem: &Problem, given: &GivenNames, file: FileId) -> Option<Rephrased> {
    let in_chart = || marks::leader_row(problem, given.source(), file);
    if let Some(marks) = in_chart().or_else(|| marks::mark_of_rows(problem, given.source(), file)) {
        return Some(marks);
    }
    let is_of_statement = is_of_statement(&problem.kind);
    let phrases: &[PhraseOf] = match &problem.kind {
        // `rows` of a gauge is no chart.
        ProblemKind::Misplaced { belongs: Belongs::Body, .. } => {
            &[gauge::swatch, vocabulary::how_often, vocabulary::first_word, vocabulary::main_part]
        }
        ProblemKind::Misplaced { belongs: Belongs::Top, .. } => {
            &[vocabulary::work, vocabulary::bead_on_strand]
        }
        // `the` of `all the way` is no `then`.
        ProblemKind::Misspelled { .. } => &[places::all_the_way, reach::over_all],
        // `end {` is no `ends {`.
        ProblemKind::UnknownStatement { nearest: Some(_) } => OF_FIRST_WORD,
        // A `"` behind a number begins no text.
        ProblemKind::UnclosedString => &[lengths::inches, within::close_quote, within::straight_quotes],
        _ if is_of_statement => PHRASES,
        _ => return None,
    };
    let line = UnreadLine::of(problem, given)?;
    let in_one = || phrases.iter().find_map(|phrase| line.reading(phrase(&line)?, file));
    let in_steps = || {
        let mut steps = 2..=MOST_STEPS;
        let phrase =
            steps.find_map(|most| PHRASES.iter().find_map(|phrase| line.in_steps(phrase(&line)?, most)))?;
        line.reading(phrase, file)
    };
    // Where a word is misspelled, it may not be all that is wrong.
    let may_be_more = is_of_statement
        || matches!(problem.kind, ProblemKind::Misspelled { .. } | ProblemKind::UnknownStatement { .. });
    let is_misspelled =
        !is_of_statement && words::meant(&line).is_some_and(|phrase| line.reads_in_one(&phrase));
    in_one().or_else(|| (may_be_more && !is_misspelled && line.is_worth_steps()).then(in_steps).flatten())
}

/// Whether it is about the words of one statement.
fn is_of_statement(kind: &ProblemKind) -> bool {
    match kind {
        ProblemKind::Unexpected { .. }
        | ProblemKind::UnknownStatement { nearest: None }
        | ProblemKind::Misplaced { belongs: Belongs::Ends, .. }
        | ProblemKind::ReservedName
        | ProblemKind::UnknownSign
        | ProblemKind::NumberTouchesWord => true,
        ProblemKind::UnknownStatement { nearest: Some(_) }
        | ProblemKind::Misspelled { .. }
        | ProblemKind::Misplaced { .. }
        | ProblemKind::UnclosedString
        | ProblemKind::UnknownEscape
        | ProblemKind::BraceInString
        | ProblemKind::NumberTooLarge
        | ProblemKind::NotWhole
        | ProblemKind::UnknownMark { .. }
        | ProblemKind::MissingClose
        | ProblemKind::OpenAtEnd { .. }
        | ProblemKind::StrayClose
        | ProblemKind::TooDeep
        | ProblemKind::ConflictMarks
        | ProblemKind::NewerEdition { .. }
        | ProblemKind::TooLarge => false,
    }
}

impl<'a> UnreadLine<'a> {
    fn of(problem: &'a Problem, given: &'a GivenNames<'a>) -> Option<Self> {
        let source = given.source();
        let all = &source.parsed.tokens;
        let at = all.partition_point(|token| token.span.end <= problem.span.start);
        let ends = |token: &Token| matches!(token.kind, TokenKind::Newline | TokenKind::CloseBrace);
        let before = all[..at].iter().rev().take(LONGEST);
        let before = before.take_while(|token| !ends(token) && token.kind != TokenKind::OpenBrace).count();
        let behind = all[at..].iter().take(LONGEST).take_while(|token| !ends(token));
        let (mut tokens, mut is_open) = (all[at - before..at].to_vec(), true);
        for token in
            behind.take_while(|token| std::mem::replace(&mut is_open, token.kind != TokenKind::OpenBrace))
        {
            tokens.push(*token);
        }
        tokens.retain(|token| token.kind != TokenKind::Comment);
        let around = around(&source.parsed.tree.statements, problem.span.start);
        (!tokens.is_empty() && tokens.len() < LONGEST).then_some(Self {
            source,
            given,
            problem,
            tokens,
            around,
        })
    }

    /// The text of the token of that number.
    fn text(&self, at: usize) -> &'a str {
        self.tokens.get(at).map_or("", |token| token.span.of(&self.source.text))
    }

    fn kind(&self, at: usize) -> Option<TokenKind> {
        self.tokens.get(at).map(|token| token.kind)
    }

    /// From the token of the first number to that of the last.
    fn span(&self, first: usize, last: usize) -> Span {
        self.tokens[first].span.to(self.tokens[last].span)
    }

    fn whole(&self) -> Span {
        self.span(0, self.tokens.len() - 1)
    }

    /// The token at which the statement fails; the number of tokens at its end.
    fn failing(&self) -> usize {
        self.tokens.partition_point(|token| token.span.end <= self.problem.span.start)
    }

    /// Whether a `}` stands behind it.
    fn is_closed(&self) -> bool {
        self.neighbors().1.is_some_and(|behind| behind.kind == TokenKind::CloseBrace)
    }

    /// The braces around it, if it fills a block on one line.
    fn braces(&self) -> Option<(Span, Span)> {
        let (before, behind) = self.neighbors();
        let open = before.filter(|token| token.kind == TokenKind::OpenBrace)?;
        Some((open.span, behind.filter(|token| token.kind == TokenKind::CloseBrace)?.span))
    }

    /// What stands before it and behind it.
    fn neighbors(&self) -> (Option<&Token>, Option<&Token>) {
        let (all, own) = (&self.source.parsed.tokens, self.whole());
        let first = all.partition_point(|token| token.span.start < own.start);
        let last = all.partition_point(|token| token.span.start < own.end);
        (first.checked_sub(1).and_then(|before| all.get(before)), all.get(last))
    }

    /// Whether the second of two neighbors follows the first without a space.
    fn touch(&self, first: usize) -> bool {
        let both = self.tokens.get(first).zip(self.tokens.get(first + 1));
        both.is_some_and(|(one, other)| one.span.end == other.span.start)
    }

    /// The phrase, with those of its ways with which the statement reads; `None` if there is none.
    fn reading(&self, phrase: Phrase, file: FileId) -> Option<Rephrased> {
        // What is left of a sentence is no name.
        let is_fit = |way: &Rewording| {
            self.tree_after(&way.edits).is_some_and(|statement| self.given.are_all_of(&statement))
        };
        let ways: Vec<Rewording> = phrase.ways.into_iter().filter(is_fit).collect();
        let write: Vec<String> = ways.iter().map(|way| way.write.clone()).collect();
        let place = |span| Place { file, span };
        let mends = ways.into_iter().map(|way| {
            let title = match way.write.is_empty() {
                true => "leave it out".to_owned(),
                false => write_in_places(&way.write, way.elsewhere.len() + 1),
            };
            let edits = way.edits.into_iter().chain(way.elsewhere);
            let edits = edits.map(|(span, text)| Edit { place: place(span), text });
            Mend { is_guess: way.is_guess, ..Mend::new(title, edits.collect(), false) }
        });
        (!write.is_empty()).then(|| Rephrased { says: phrase.says, write, mends: mends.collect() })
    }

    fn reads_in_one(&self, phrase: &Phrase) -> bool {
        phrase.ways.iter().any(|way| self.reads(&way.edits))
    }

    fn is_worth_steps(&self) -> bool {
        let mut first = self.source.parsed.problems.iter().take(MOST_IN_STEPS);
        self.tokens.len() <= LONGEST_IN_STEPS && first.any(|problem| std::ptr::eq(problem, self.problem))
    }

    /// The phrase, with what does not read after it either said otherwise, in `most` steps altogether.
    fn in_steps(&self, phrase: Phrase, most: usize) -> Option<Phrase> {
        let way = phrase.ways.iter().find_map(|way| {
            let (statement, is_guess) = self.read_on(&self.after(&way.edits)?, most - 1)?;
            let is_guess = is_guess || way.is_guess;
            Some(Rewording { is_guess, ..Rewording::instead(self.whole(), statement) })
        })?;
        Some(Phrase::new(phrase.says, vec![way]))
    }

    /// A statement in the place of this one, said as it reads after at most that many steps; whether only the author knows all
    /// of it.
    fn read_on(&self, statement: &str, steps: usize) -> Option<(String, bool)> {
        let (before, behind) = self.block_around(statement);
        let source = Source::new("", format!("{before}{statement}{behind}"));
        let given = GivenNames::of(&source);
        let line = UnreadLine::of(source.parsed.problems.first()?, &given)?;
        PHRASES.iter().find_map(|phrase| {
            phrase(&line)?.ways.iter().find_map(|way| {
                let edits = way.edits.iter().map(|(span, text)| (*span, text.as_str()));
                let all = apply_edits(&source.text, edits)?;
                let statement = all.strip_prefix(&before)?.strip_suffix(&behind)?;
                match steps {
                    1 => line.reads(&way.edits).then(|| (statement.to_owned(), way.is_guess)),
                    _ => {
                        let (statement, is_guess) = self.read_on(statement, steps - 1)?;
                        Some((statement, is_guess || way.is_guess))
                    }
                }
            })
        })
    }

    /// What stands before and behind a statement for it to be read by itself, in a block like its own.
    fn block_around(&self, statement: &str) -> (String, String) {
        let code = match statement.starts_with("--") {
            true => "",
            false => statement.split(" --").next().unwrap_or_default(),
        };
        let open = code.matches('{').count().saturating_sub(code.matches('}').count());
        let end = " }".repeat(open);
        match self.around {
            BlockSort::Top => (String::new(), format!("{end}\n")),
            BlockSort::Gauge => ("gauge {\n".to_owned(), format!("{end}\n}}\n")),
            BlockSort::Ends => ("finish {\n".to_owned(), format!("{end}\n}}\n")),
            BlockSort::Body => ("set {\n".to_owned(), format!("{end}\n}}\n")),
            BlockSort::Colorway => ("colorway \"a\" {\n".to_owned(), format!("{end}\n}}\n")),
            BlockSort::Leader => ("set {\nleader left 1 {\n".to_owned(), format!("{end}\n}}\n}}\n")),
        }
    }

    /// The statement after these edits; `None` if they do not fit.
    fn after(&self, edits: &[(Span, String)]) -> Option<String> {
        let whole = edits.iter().fold(self.whole(), |whole, (span, _)| whole.to(*span));
        let within = |span: Span| Span { start: span.start - whole.start, end: span.end - whole.start };
        let edits = edits.iter().map(|(span, text)| (within(*span), text.as_str()));
        apply_edits(whole.of(&self.source.text), edits)
    }

    /// Whether the statement reads after these edits.
    fn reads(&self, edits: &[(Span, String)]) -> bool {
        self.tree_after(edits).is_some()
    }

    /// The statement after these edits, as it stands by itself in a block like its own; `None` if it does not read.
    fn tree_after(&self, edits: &[(Span, String)]) -> Option<Tree> {
        let statement = self.after(edits)?;
        let (before, behind) = self.block_around(&statement);
        let Parsed { problems, tree, .. } = parse(&format!("{before}{statement}{behind}"));
        problems.is_empty().then_some(tree)
    }
}

/// Whether a problem is one of the first of its kind: for no others, the whole file is looked through.
fn is_among_first(problem: &Problem, source: &Source) -> bool {
    let is_alike = |other: &&Problem| discriminant(&other.kind) == discriminant(&problem.kind);
    let mut alike = source.parsed.problems.iter().filter(is_alike).take(MOST_IN_STEPS);
    alike.any(|first| std::ptr::eq(first, problem))
}

/// What is between two tokens.
fn between(line: &UnreadLine, first: usize, last: usize) -> Span {
    Span { start: line.tokens[first].span.end, end: line.tokens[last].span.start }
}

/// The innermost block in which `at` lies.
fn around(statements: &[Statement], at: u32) -> BlockSort {
    let mut around = BlockSort::Top;
    let mut statements = statements;
    while let Some(statement) = statements.iter().find(|it| it.span.start <= at && at <= it.span.end)
        && let Some(block) = statement.node.block().filter(|block| block.open.end <= at)
    {
        if block.close.is_some_and(|close| close.end <= at) {
            break;
        }
        let is_end =
            statement.is::<BeginBlock>() || statement.is::<FinishBlock>() || statement.is::<SplitBlock>();
        around = match statement.is::<GaugeBlock>() {
            true => BlockSort::Gauge,
            false if is_end => BlockSort::Ends,
            false if statement.is::<ColorwayBlock>() => BlockSort::Colorway,
            false => BlockSort::Body,
        };
        statements = &block.statements;
    }
    let is_leader =
        |statement: &Statement| statement.get::<LeaderChart>().is_some_and(|leader| is_in(&leader.chart, at));
    if statements.iter().any(is_leader) { BlockSort::Leader } else { around }
}

fn is_in(chart: &Chart, at: u32) -> bool {
    chart.open.end <= at && chart.close.is_none_or(|close| at <= close.start)
}

//! The line that may have opened a block, before it was lost. Which one it was shows in what stands in the block, and around
//! it; what is proposed is tried like all else.

use super::imports::undeclared_motifs;
use super::orphans::{Orphans, is_blank, white};
use super::{BlockSort, around};
use crate::Source;
use knotwright_grammar::tree::{
    BeginBlock, ClosingBlock, Declared, FinishBlock, ForBlock, LeaderChart, Motif, OpeningBlock,
    SectionBlock, SetBlock, Statement, Strands, Thread, Work, Zone,
};
use knotwright_grammar::words::{self, WORDS};
use knotwright_grammar::{Span, TokenKind};
use knotwright_numbers::ToNumber;

/// How many lines of a block are looked at.
const MOST_LINES: usize = 500;
/// The most lines of the file that are proposed again.
const MOST_OTHERS: usize = 5;
/// How often a block is tied, and how far a count goes, if no other line of the file tells.
const COUNTS: [u8; 5] = [4, 2, 3, 5, 6];
/// The most parameters of a motif that are put in any order.
pub(super) const MOST_PARAMETERS: usize = 3;

/// What may have stood in the lost line.
pub(super) struct LostLine {
    pub(super) line: String,
    /// Whether only the author knows all of it.
    pub(super) is_guess: bool,
}

/// The lost line, the likeliest first.
pub(super) fn proposals(orphans: Orphans, source: &Source) -> Vec<LostLine> {
    OrphanBlock::of(orphans, source).proposals()
}

/// What stands in a block that no line opens.
struct OrphanBlock<'a> {
    source: &'a Source,
    at: Span,
    /// Its own lines, without those of the blocks in it.
    lines: Vec<&'a str>,
    around: BlockSort,
}

impl<'a> OrphanBlock<'a> {
    fn of(orphans: Orphans, source: &'a Source) -> Self {
        let start = orphans.first.whole_lines(&source.text).start;
        let text = &source.text[start.to_usize()..orphans.close.start.to_usize()];
        let all = text.split_inclusive('\n').take(MOST_LINES);
        let end = start + all.clone().map(str::len).sum::<usize>().to_u32();
        let at = Span { start: orphans.first.start, end };
        let code: Vec<&str> = all.filter(|line| !is_blank(line) && !line.trim().starts_with("--")).collect();
        let least = code.iter().map(|line| white(line)).min().unwrap_or(0);
        let lines = code.into_iter().filter(|line| white(line) == least).map(str::trim);
        let lines = lines.filter(|line| *line != "}").collect();
        let around = around(&source.parsed.tree.statements, at.start.saturating_sub(1));
        Self { source, at, lines, around }
    }

    fn proposals(&self) -> Vec<LostLine> {
        match self.around {
            BlockSort::Gauge | BlockSort::Colorway | BlockSort::Leader => Vec::new(),
            BlockSort::Ends => self.known((2..=3).map(|parts| format!("split {parts}"))),
            BlockSort::Top => self.at_top(),
            BlockSort::Body if self.is_chart() => self.charts(),
            BlockSort::Body => self.in_body(),
        }
    }

    fn words(&self) -> impl Iterator<Item = &'a str> {
        self.lines.iter().map(|line| line.split_whitespace().next().unwrap_or_default())
    }

    fn top(&self) -> &'a [Statement] {
        &self.source.parsed.tree.statements
    }

    fn has<T: Declared>(&self) -> bool {
        self.top().iter().any(Statement::is::<T>)
    }

    fn sure(line: impl Into<String>) -> LostLine {
        LostLine { line: line.into(), is_guess: false }
    }

    fn guess(line: impl Into<String>) -> LostLine {
        LostLine { line: line.into(), is_guess: true }
    }

    fn known(&self, lines: impl Iterator<Item = String>) -> Vec<LostLine> {
        lines.map(Self::guess).collect()
    }

    fn at_top(&self) -> Vec<LostLine> {
        let is_swatch =
            |word: &str| word == "thickness" || word.starts_with(|first: char| first.is_ascii_digit());
        let is_end = |word: &str| words::find_end_piece(word).is_some();
        if self.words().all(is_swatch) {
            return vec![Self::sure("gauge")];
        }
        if self.words().all(|word| word == "thread") {
            return vec![Self::guess("colorway \"other colors\"")];
        }
        if self.words().all(is_end) {
            let begin = (!self.has::<BeginBlock>()).then(|| Self::sure("begin"));
            return begin
                .into_iter()
                .chain((!self.has::<FinishBlock>()).then(|| Self::sure("finish")))
                .collect();
        }
        let motifs = self.motifs();
        if !motifs.is_empty() {
            return motifs;
        }
        let Some(set) = self.top().iter().find(|statement| statement.is::<SetBlock>()) else {
            return vec![Self::sure("set")];
        };
        match self.at.start < set.span.start {
            true if !self.has::<OpeningBlock>() => vec![Self::sure("opening")],
            false if !self.has::<ClosingBlock>() => vec![Self::sure("closing")],
            _ => Vec::new(),
        }
    }

    /// A motif that is worked and declared nowhere, with the names that are known nowhere else.
    fn motifs(&self) -> Vec<LostLine> {
        let lost = undeclared_motifs(self.source).into_iter().next();
        let mut works = self.source.parsed.tree.walk().filter_map(|statement| statement.get::<Work>());
        let names = self.strange_names();
        let Some(work) = works.find(|work| Some(work.motif.text.as_str()) == lost) else {
            // Other files work the motifs of a library.
            let is_library = !self.has::<Strands>() && !self.has::<SetBlock>();
            let line = is_library.then(|| Self::guess(format!("motif name({})", names.join(", "))));
            return line.into_iter().collect();
        };
        if names.len() != work.args.len() || names.len() > MOST_PARAMETERS {
            return Vec::new();
        }
        // The width that it was meant for is lost.
        let line = |names: Vec<&str>| Self::guess(format!("motif {}({})", work.motif.text, names.join(", ")));
        orders(&names).into_iter().map(line).collect()
    }

    /// Names in these lines that are not declared at the top, nor in them.
    fn strange_names(&self) -> Vec<&'a str> {
        strange_names(self.source, self.at)
    }

    /// Whether these lines are rows: signs, or single letters.
    fn is_chart(&self) -> bool {
        let is_mark = |mark: &str| {
            mark.chars().all(|sign| !sign.is_alphanumeric() || sign == 'x') || mark.chars().count() == 1
        };
        self.lines.iter().all(|line| line.starts_with("letters ") || line.split_whitespace().all(is_mark))
    }

    fn charts(&self) -> Vec<LostLine> {
        let marks = || self.lines.iter().flat_map(|line| line.chars()).filter(|sign| !sign.is_whitespace());
        if marks().any(|mark| matches!(mark, '\\' | '/' | '<' | '>')) {
            return vec![Self::sure("rows"), Self::sure("rows offset")];
        }
        if self.lines.iter().any(|line| line.starts_with("letters ")) || marks().any(|mark| mark == '#') {
            let mut lines = self.others(|statement| statement.is::<LeaderChart>());
            lines.extend(["leader left 1", "leader right 1"].map(str::to_owned));
            return lines.into_iter().map(Self::sure).collect();
        }
        self.face().into_iter().collect()
    }

    /// The key of a face, if each letter begins the name of one thread alone.
    fn face(&self) -> Option<LostLine> {
        let mut letters: Vec<char> =
            self.lines.iter().flat_map(|line| line.chars()).filter(|sign| sign.is_alphabetic()).collect();
        keep_firsts(&mut letters);
        let threads =
            || self.top().iter().filter_map(|statement| Some(statement.get::<Thread>()?.name.text.as_str()));
        let key = |letter: char| {
            let mut begun = threads().filter(|name| name.starts_with(letter));
            begun.next().filter(|_| begun.next().is_none()).map(|name| format!("{letter} {name}"))
        };
        let keys: Vec<String> = letters.into_iter().map(key).collect::<Option<_>>()?;
        (!keys.is_empty()).then(|| Self::sure(format!("face {}", keys.join(", "))))
    }

    /// A block of steps.
    fn in_body(&self) -> Vec<LostLine> {
        let title = Self::guess("section \"title\"");
        if let [counter] = self.strange_names()[..] {
            let begins = format!("for {counter} ");
            let mut lines =
                self.others(|statement| statement.span.of(&self.source.text).starts_with(&begins));
            let both_ways = |most| [format!("{begins}{most} down to 1"), format!("{begins}1 up to {most}")];
            lines.extend(COUNTS.into_iter().flat_map(both_ways));
            return lines.into_iter().map(Self::sure).collect();
        }
        let mut lines: Vec<String> = ["both", "mirrored"].map(str::to_owned).into();
        let is_other =
            |statement: &Statement| !statement.is::<SectionBlock>() && statement.node.chart().is_none();
        lines.extend(self.others(is_other));
        lines.extend(self.ranges());
        lines.extend(COUNTS.map(|times| format!("repeat {times}")));
        keep_firsts(&mut lines);
        let mut all: Vec<LostLine> = lines.into_iter().map(Self::sure).collect();
        all.insert(if self.is_among_sections() { 0 } else { all.len() }, title);
        all
    }

    /// Ranges as wide as a motif is that is worked here, and some inside the edges.
    fn ranges(&self) -> Vec<String> {
        let motifs = self.top().iter().filter_map(|statement| statement.get::<Motif>());
        let is_worked = |motif: &&Motif| {
            self.lines.iter().any(|line| line.contains(&format!("work {}(", motif.name.text)))
        };
        let width = motifs.clone().filter(is_worked).find_map(|motif| motif.width.as_ref());
        match width {
            Some(width) => {
                ["left", "right", "center"].map(|side| format!("on {side} {}", width.value)).into()
            }
            None => (1..=2).map(|edge| format!("on inside {edge}")).collect(),
        }
    }

    /// Whether a section stands beside it.
    fn is_among_sections(&self) -> bool {
        let block = blocks_around(self.top(), self.at).last().and_then(|around| around.node.block());
        let is_beside = |statement: &Statement| {
            statement.span.end <= self.at.start || self.at.end <= statement.span.start
        };
        let mut sections =
            block.iter().flat_map(|block| &block.statements).filter(|beside| beside.is::<SectionBlock>());
        sections.any(is_beside)
    }

    /// The lines that open blocks elsewhere in a body, without their brace.
    fn others(&self, is_alike: impl Fn(&Statement) -> bool) -> Vec<String> {
        let mut lines: Vec<String> = Vec::new();
        let text = &self.source.text;
        let is_in_body = |statement: &&Statement| {
            let first = statement.span.of(text).split_whitespace().next().unwrap_or_default();
            words::find_in(Zone::Body, first).is_some_and(|known| known.may_stand(Zone::Body))
        };
        for statement in
            self.source.parsed.tree.walk().filter(is_in_body).filter(|statement| is_alike(statement))
        {
            let line = statement.head.of(text).lines().next().unwrap_or_default();
            let Some(line) = line.trim_end().strip_suffix('{').map(|line| line.trim_end().to_owned()) else {
                continue;
            };
            if !lines.contains(&line) && lines.len() < MOST_OTHERS {
                lines.push(line);
            }
        }
        lines
    }
}

/// Names in a part of a file that are not declared at its top, nor around that part, nor in it.
pub(super) fn strange_names(source: &Source, span: Span) -> Vec<&str> {
    let (text, tokens, top) = (&source.text, &source.parsed.tokens, &source.parsed.tree.statements);
    let first = tokens.partition_point(|token| token.span.start < span.start);
    let end = tokens.partition_point(|token| token.span.end <= span.end);
    let own = &tokens[first..end.max(first)];
    // What stands before a text is its language.
    let is_name = |at: &usize| {
        let is_text = own.get(at + 1).is_some_and(|next| next.kind == TokenKind::String);
        own[*at].kind == TokenKind::Word && !is_text
    };
    let own: Vec<&str> = (0..own.len()).filter(is_name).map(|at| own[at].span.of(text)).collect();
    let given =
        own.windows(2).filter(|two| matches!(two[0], "as" | "for" | "work" | "bead")).map(|two| two[1]);
    let threads = top.iter().filter_map(|statement| statement.get::<Thread>());
    let threads = threads.map(|thread| thread.name.text.as_str());
    let known = given.chain(threads).chain(WORDS.iter().map(|word| word.text));
    let known: Vec<&str> = known.chain(names_around(top, span)).collect();
    let mut strange: Vec<&str> = own.iter().copied().filter(|name| !known.contains(name)).collect();
    keep_firsts(&mut strange);
    strange
}

/// The blocks around a part of a file, the outermost first.
fn blocks_around(top: &[Statement], span: Span) -> Vec<&Statement> {
    let holds = |statement: &&Statement| statement.span.start < span.start && span.end <= statement.span.end;
    let mut around: Vec<&Statement> = top.iter().find(holds).into_iter().collect();
    while let Some(inner) = around.last().and_then(|outer| outer.node.block()?.statements.iter().find(holds))
    {
        around.push(inner);
    }
    around
}

/// Parameters and counters that are known there.
fn names_around(top: &[Statement], span: Span) -> impl Iterator<Item = &str> {
    blocks_around(top, span).into_iter().flat_map(|block| {
        let parameters = block.get::<Motif>().into_iter().flat_map(|motif| &motif.params);
        let counter = block.get::<ForBlock>().map(|counted| &counted.variable);
        parameters.chain(counter).map(|name| name.text.as_str())
    })
}

/// Each of some once.
fn keep_firsts<T: PartialEq + Clone>(all: &mut Vec<T>) {
    let mut seen: Vec<T> = Vec::new();
    all.retain(|one| {
        let is_new = !seen.contains(one);
        seen.extend(is_new.then(|| one.clone()));
        is_new
    });
}

/// All orders of a few names.
pub(super) fn orders<T: Copy>(names: &[T]) -> Vec<Vec<T>> {
    if names.is_empty() {
        return vec![Vec::new()];
    }
    let with_first = |first: usize| {
        let rest: Vec<T> =
            names.iter().enumerate().filter(|(at, _)| *at != first).map(|(_, name)| *name).collect();
        orders(&rest).into_iter().map(move |rest| [vec![names[first]], rest].concat())
    };
    (0..names.len()).flat_map(with_first).collect()
}

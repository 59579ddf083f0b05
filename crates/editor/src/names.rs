//! The names of a file: what gives them, where they stand, from where to where they may be named.

mod broken;
mod scope;

use knotwright_checker::Source;
use knotwright_grammar::Span;
use smol_str::SmolStr;

/// All names of one file.
#[derive(Debug, Default, Clone, PartialEq)]
pub struct NameIndex {
    symbols: Vec<NamedSymbol>,
    mentions: Vec<Mention>,
}

/// Something that has a name.
#[derive(Debug, Clone, PartialEq)]
pub struct NamedSymbol {
    /// Its name, in NFC.
    pub name: SmolStr,
    /// What it is.
    pub sort: NameSort,
    /// Where it gets its name; `None` if nothing in the file gives it.
    pub given: Option<Span>,
    /// Where it may be named.
    pub reach: Span,
    /// For a motif of another file: which of the file's `use` statements brings it.
    pub from: Option<usize>,
}

/// What a name stands for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum NameSort {
    /// A thread.
    Thread,
    /// A bead.
    Bead,
    /// A motif.
    Motif,
    /// A parameter of a motif.
    Parameter,
    /// The number that counts in a `for`.
    Counter,
    /// A label of a strand.
    Label,
}

/// A place where a name stands.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Mention {
    /// Where.
    pub span: Span,
    /// Which of the symbols.
    pub symbol: usize,
    /// Whether the symbol gets its name here.
    pub gives: bool,
}

impl NameIndex {
    /// Looks all names of a file up.
    pub fn of(source: &Source) -> Self {
        Self::within(source, Span::new(0, source.text.len()))
    }

    /// Those whose mentions are in statements that touch `span`; other mentions may be among them.
    pub(crate) fn within(source: &Source, span: Span) -> Self {
        let mut names = scope::walk(source, span);
        names.mentions.sort_by_key(|mention| mention.span);
        names.mentions.dedup_by_key(|mention| mention.span);
        names
    }

    /// The symbols.
    pub fn symbols(&self) -> &[NamedSymbol] {
        &self.symbols
    }

    /// The mentions, in order of place.
    pub fn mentions(&self) -> &[Mention] {
        &self.mentions
    }

    /// The mention at `offset`; one that ends there if none begins there.
    pub fn at(&self, offset: u32) -> Option<&Mention> {
        let before = &self.mentions[..self.mentions.partition_point(|mention| mention.span.start <= offset)];
        before.last().filter(|mention| mention.span.touches(offset))
    }

    /// The mention with exactly this span.
    pub fn exactly(&self, span: Span) -> Option<&Mention> {
        let at = self.mentions.partition_point(|mention| mention.span.start < span.start);
        self.mentions.get(at).filter(|mention| mention.span == span)
    }

    /// Where a symbol stands.
    pub fn mentions_of(&self, symbol: usize) -> impl Iterator<Item = &Mention> {
        self.mentions.iter().filter(move |mention| mention.symbol == symbol)
    }

    /// The symbol of a mention.
    pub fn symbol(&self, mention: &Mention) -> &NamedSymbol {
        &self.symbols[mention.symbol]
    }

    /// The motif of that name: its own or one that `use` brings.
    pub fn motif(&self, name: &str) -> Option<usize> {
        let fits = |symbol: &NamedSymbol| {
            symbol.sort == NameSort::Motif && symbol.given.is_some() && symbol.name == name
        };
        self.symbols.iter().position(fits)
    }

    /// The symbols that may be named at `offset`, with something that gives them.
    pub fn known_at(&self, offset: u32) -> impl Iterator<Item = &NamedSymbol> {
        self.symbols.iter().filter(move |symbol| {
            symbol.given.is_some() && symbol.reach.start <= offset && offset <= symbol.reach.end
        })
    }

    fn add(&mut self, symbol: NamedSymbol) -> usize {
        self.symbols.push(symbol);
        self.symbols.len() - 1
    }

    fn mention(&mut self, span: Span, symbol: usize, gives: bool) {
        self.mentions.push(Mention { span, symbol, gives });
    }
}

impl NameSort {
    /// What people call it.
    pub fn word(self) -> &'static str {
        match self {
            Self::Thread => "thread",
            Self::Bead => "bead",
            Self::Motif => "motif",
            Self::Parameter => "parameter",
            Self::Counter => "number that counts",
            Self::Label => "label",
        }
    }
}

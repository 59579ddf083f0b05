//! One statement: what it says, or why it says nothing.

use super::line::{DEEPEST, Line};
use super::place::{Place, belongs};
use super::reader::Reader;
use crate::syntax::{self, Tok};
use crate::tree::{Block, Node, Statement};
use crate::words::{self, Word};
use crate::{Problem, ProblemKind, Span, TokenKind};

impl Reader<'_> {
    /// Reads one statement, up to the `{` of its block. There is a token ahead that is no comment and no line's end.
    pub(crate) fn statement(&mut self) {
        let indent = self.indent();
        if self.at_line_start() {
            self.close_by_indentation(indent);
        }
        self.begin_in_block();
        let (told, place) = (self.told(), self.place());
        let line = self.gather();
        let (node, word) = self.node(line, place, told);
        let statement = Statement { span: line.span, head: line.head, node };
        match line.brace {
            None => {
                self.add(statement);
                self.ended();
            }
            Some(brace) if self.frames.len() == DEEPEST => self.too_deep(brace, statement),
            Some(brace) => self.open(statement, place.within(word), brace, indent),
        }
    }

    /// Ends the blocks whose `}` is missing, if the line ahead shows by its indentation that they are over.
    fn close_by_indentation(&mut self, indent: u32) {
        let ahead = self.peek().map_or("", |token| token.span.of(self.text));
        let word = words::statement(ahead);
        while let Some(frame) = self.frames.last() {
            let fits = word.is_none_or(|word| frame.place.admits(word));
            if !self.balance.lacks_close(frame.open) || !frame.ended_before(indent, fits) {
                return;
            }
            self.close_missing();
        }
    }

    /// The node of the gathered line, and the word that says what its block holds. `told` problems were told before
    /// this line.
    fn node(&mut self, line: Line, place: Place, told: usize) -> (Node, Option<&'static str>) {
        let broken = Node::Broken { block: self.broken_block(line) };
        let Some(first) = self.words.first().copied() else { return (broken, None) };
        let known = words::statement(first.text).filter(|_| first.kind == TokenKind::Word);
        let word = known.map(|word| word.text);
        if line.hopeless {
            self.keep_first(told, None);
            return (broken, word);
        }
        if let Some(kind) = self.refusal(first, known, place) {
            let meant = match kind {
                ProblemKind::UnknownStatement { nearest } => nearest,
                _ => word,
            };
            let problem = self.is_news(&kind, place).then_some(Problem { span: first.span, kind });
            self.replace_since(told, problem);
            return (broken, meant);
        }
        self.misplaced = None;
        match syntax::parse(&self.words) {
            Ok(node) => (node, word),
            Err(account) => {
                let problem = syntax::problem(account, &self.words);
                self.keep_first(told, Some(problem));
                (broken, word)
            }
        }
    }

    fn broken_block(&self, line: Line) -> Option<Block> {
        let open = self.tokens.get(line.brace?)?.span;
        Some(Block { open, close: None, statements: Vec::new() })
    }

    /// Whether a refusal is told: of a run of statements that belong elsewhere only the first is, as they have one
    /// cause, and in the block of an unknown statement no other unknown ones are.
    fn is_news(&mut self, refusal: &ProblemKind, place: Place) -> bool {
        let elsewhere = match refusal {
            ProblemKind::Misplaced { belongs, .. } => Some(*belongs),
            _ => None,
        };
        let before = std::mem::replace(&mut self.misplaced, elsewhere);
        if elsewhere.is_some() { elsewhere != before } else { place != Place::Any }
    }

    /// Why a statement that begins so may not stand in `place`.
    fn refusal(&self, first: Tok, known: Option<&'static Word>, place: Place) -> Option<ProblemKind> {
        let gauge = matches!(place, Place::Gauge | Place::Any);
        let misplaced = |statement, belongs| Some(ProblemKind::Misplaced { statement, belongs });
        match known {
            Some(word) if place.admits(word) => None,
            Some(word) => misplaced(word.text, belongs(word)),
            None if gauge && (first.kind == TokenKind::Number || first.is("thickness")) => None,
            None if first.is("thickness") => misplaced("thickness", "in `gauge`"),
            None if first.is("then") => misplaced("then", "below a `take`"),
            None if first.kind == TokenKind::Word => {
                Some(ProblemKind::UnknownStatement { nearest: place.nearest(first.text) })
            }
            None => Some(ProblemKind::Unexpected { expected: vec!["a statement"] }),
        }
    }

    fn too_deep(&mut self, brace: usize, statement: Statement) {
        let open = self.tokens.get(brace).map_or(Span::default(), |token| token.span);
        self.problem(open, ProblemKind::TooDeep);
        self.skip_block();
        let end = self.at.checked_sub(1).and_then(|at| self.tokens.get(at)).map_or(open, |token| token.span);
        self.add(Statement { span: statement.span.to(end), node: Node::Broken { block: None }, ..statement });
        self.ended();
    }
}

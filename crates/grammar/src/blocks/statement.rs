//! One statement: what it says, or why it says nothing.

use super::chart::LETTERS;
use super::line::{DEEPEST, Line};
use super::place::{belongs, nearest, within};
use super::reader::Reader;
use crate::syntax::{self, Tok};
use crate::tree::{Block, Broken, Declaration, Node, Statement, Zone};
use crate::words;
use crate::{Belongs, Expected, Problem, ProblemKind, Span, TokenKind};

impl Reader<'_> {
    /// Reads one statement, up to the `{` of its block. There is a token ahead that is no comment and no line's end.
    pub(crate) fn statement(&mut self) {
        let indent = self.indent();
        if self.at_line_start() {
            self.close_by_indentation(indent);
        }
        self.begin_in_block();
        let (known_problems, place) = (self.known_problems(), self.place());
        let line = self.gather();
        let (node, word) = self.node(line, place, known_problems);
        let statement = Statement { span: line.span, head: line.head, node };
        match line.brace {
            None => {
                self.add(statement);
                self.ended();
            }
            Some(brace) if self.frames.len() == DEEPEST => self.too_deep(brace, statement),
            Some(brace) => self.open(statement, within(place, word), brace, indent),
        }
    }

    /// Ends the blocks whose `}` is missing, if the line ahead shows by its indentation that they are over.
    fn close_by_indentation(&mut self, indent: u32) {
        let ahead = self.peek().map_or("", |token| token.span.of(self.text));
        while let Some(frame) = self.frames.last().filter(|frame| self.balance.lacks_close(frame.open)) {
            let fits = words::find_in(frame.place, ahead).is_none_or(|known| known.may_stand(frame.place));
            if !frame.ended_before(indent, fits) {
                return;
            }
            self.close_missing();
        }
    }

    /// The node of the gathered line, and the word that says what its block holds. `told` problems were told before
    /// this line.
    fn node(&mut self, line: Line, place: Zone, known_problems: usize) -> (Node, Option<&'static str>) {
        let Some(first) = self.words.first().copied() else { return (self.broken(line), None) };
        let known = words::find_in(place, first.text).filter(|_| first.kind == TokenKind::Word);
        let word = known.map(|known| known.word.text);
        if line.hopeless {
            self.keep_first(known_problems, None);
            return (self.broken(line), word);
        }
        if let Some(kind) = self.refusal(first, known, place) {
            let meant = match kind {
                ProblemKind::UnknownStatement { nearest } => nearest,
                _ => word,
            };
            let problem = self.is_news(&kind, place).then_some(Problem { span: first.span, kind });
            self.replace_since(known_problems, problem);
            return (self.broken(line), meant);
        }
        self.misplaced = None;
        match syntax::parse(&self.words, place) {
            Ok(node) => (node, word),
            Err(account) => {
                let problem = match self.meant_elsewhere(first, place) {
                    Some(kind) => Problem { span: first.span, kind },
                    None => syntax::problem(account, &self.words, place),
                };
                self.keep_first(known_problems, Some(problem));
                (self.broken(line), word)
            }
        }
    }

    fn broken(&self, line: Line) -> Node {
        let open = line.brace.and_then(|brace| self.tokens.get(brace));
        let block = open.map(|open| Block { open: open.span, close: None, statements: Vec::new() });
        Node::Broken(Broken { block })
    }

    /// Whether a refusal is reported: of a run of statements that belong elsewhere only the first is, as they have one
    /// cause, and in the block of an unknown statement no other unknown ones are.
    fn is_news(&mut self, refusal: &ProblemKind, place: Zone) -> bool {
        let elsewhere = match refusal {
            ProblemKind::Misplaced { belongs, .. } => Some(*belongs),
            _ => None,
        };
        let before = std::mem::replace(&mut self.misplaced, elsewhere);
        if elsewhere.is_some() { elsewhere != before } else { place != Zone::Any }
    }

    /// Why a statement that begins so may not be in `place`.
    fn refusal(&self, first: Tok, known: Option<&'static Declaration>, place: Zone) -> Option<ProblemKind> {
        let gauge = matches!(place, Zone::Gauge | Zone::Any);
        let piece = words::find_end_piece(first.text);
        let misplaced = |statement, belongs| Some(ProblemKind::Misplaced { statement, belongs });
        match known {
            Some(known) if known.may_stand(place) => None,
            Some(known) => misplaced(known.word.text, belongs(known)),
            None if gauge && (first.kind == TokenKind::Number || first.is("thickness")) => None,
            None if first.is("thickness") => misplaced("thickness", Belongs::Gauge),
            None if piece.is_some() => piece.and_then(|piece| misplaced(piece.word.text, Belongs::Ends)),
            None if first.is(LETTERS) => misplaced(LETTERS, Belongs::Leader),
            None if first.is("then") => misplaced("then", Belongs::BelowTake),
            None if first.kind == TokenKind::Word => {
                Some(ProblemKind::UnknownStatement { nearest: nearest(place, first.text) })
            }
            None => Some(ProblemKind::Unexpected { expected: vec![Expected::Statement] }),
        }
    }

    /// A statement that fails here and would be one elsewhere: a bead is declared at the top and threaded in a set.
    fn meant_elsewhere(&self, first: Tok, place: Zone) -> Option<ProblemKind> {
        let mut others = words::all_statements()
            .filter(|known| known.word.text == first.text && !known.may_stand(place))
            // What is short is sooner not finished than meant for an end.
            .filter(|known| !known.may_stand(Zone::Ends))
            .filter(|known| known.stands.iter().any(|&zone| syntax::parse(&self.words, zone).is_ok()));
        others
            .next()
            .map(|known| ProblemKind::Misplaced { statement: known.word.text, belongs: belongs(known) })
    }

    fn too_deep(&mut self, brace: usize, statement: Statement) {
        let open = self.tokens.get(brace).map_or(Span::default(), |token| token.span);
        self.problem(open, ProblemKind::TooDeep);
        self.skip_block();
        let end = self.at.checked_sub(1).and_then(|at| self.tokens.get(at)).map_or(open, |token| token.span);
        let broken = Node::Broken(Broken { block: None });
        self.add(Statement { span: statement.span.to(end), node: broken, ..statement });
        self.ended();
    }
}

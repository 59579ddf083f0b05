//! What a part promises to show, or is wished to: `face` and `expect face`.
//!
//! Both are about a whole part, whatever ties it, so they are looked at after the tie and know nothing of how it went.
//! Steps make a promise of a `face`; without any, it is a wish.

mod promise;
mod read;
mod symmetry;
mod wish;

use crate::facts::Facts;
use crate::part::PartKind;
use crate::resolve::{Script, ThreadId};
use crate::tie::Tied;
use crate::{Fact, FactKind, FileId, Part, Place, Source};
use knotwright_designer::WishedFace;
use knotwright_grammar::tree::{Block, Expect, FaceChart, Statement};

/// A face as it stands in a part.
pub(crate) struct ReadFace {
    /// What is to be seen; colors are threads.
    pub(crate) face: WishedFace,
    /// By knot of the face, the place of its mark.
    pub(crate) marks: Vec<Place>,
    /// Where the statement begins.
    pub(crate) head: Place,
}

/// A part whose face is looked at.
struct PartFace<'a> {
    script: &'a Script,
    kind: PartKind,
    block: &'a Block,
    part: &'a Part,
    /// By position as the part begins, the thread.
    hung: Vec<ThreadId>,
}

/// Whether a part of this file says what it shows; then its findings rest on all of its knots.
pub(crate) fn has_face(source: &Source) -> bool {
    let parts = source.parsed.tree.statements.iter().filter_map(|statement| {
        PartKind::of(statement)?;
        statement.node.block()
    });
    parts.flat_map(|block| &block.statements).any(|statement| word(statement).is_some())
}

/// The face of a part, if it has one that can be read.
pub(crate) fn face_in(script: &Script, kind: PartKind) -> Option<ReadFace> {
    let block = block_of(script, kind)?;
    let statement = block.statements.iter().find(|statement| statement.is::<FaceChart>())?;
    read::read_face(script, statement, &mut Facts::default())
}

/// Whether a part says that its strands hang at its end as at its start.
pub(crate) fn comes_again(script: &Script, kind: PartKind) -> bool {
    let says = |statement: &Statement| matches!(statement.get(), Some(Expect::Start { mirrored: None }));
    block_of(script, kind).is_some_and(|block| block.statements.iter().any(says))
}

/// Whether a part has a face, and nothing in it can tie a knot.
pub(crate) fn is_wish(script: &Script, kind: PartKind) -> bool {
    let Some(block) = block_of(script, kind) else { return false };
    block.statements.iter().any(|statement| statement.is::<FaceChart>())
        && !block.walk().any(Statement::is_step)
}

/// What is wrong with faces. `is_sound`: nothing is wrong with the tie.
pub(crate) fn check_faces(script: &Script, tied: &Tied, is_sound: bool) -> Vec<Fact> {
    if !script.source().says_face() {
        return Vec::new();
    }
    let mut facts = Facts::default();
    // Without a brace, nobody knows what stands in which block.
    if script.source().parsed.paired {
        check_places(script, &mut facts);
    }
    // If the strands hang otherwise than was meant, no row of a face fits: that is one mistake.
    if !is_sound {
        return facts.into_list();
    }
    parts_of(script, tied).iter().for_each(|part| part.check(&mut facts));
    facts.into_list()
}

/// Whether the knots show another face than is promised, in a file whose faces can be read.
pub(crate) fn breaks_face(script: &Script, tied: &Tied) -> bool {
    if !has_face(script.source()) {
        return false;
    }
    let mut facts = Facts::default();
    let parts = parts_of(script, tied);
    let tied = parts.iter().filter(|part| !is_wish(script, part.kind));
    tied.for_each(|part| part.check(&mut facts));
    facts.into_list().iter().any(|fact| {
        matches!(
            fact.kind,
            FactKind::FaceDiffers { .. } | FactKind::FaceKnots { .. } | FactKind::FaceUneven { .. }
        )
    })
}

/// The parts that were tied, and how the strands hang as each begins.
fn parts_of<'a>(script: &'a Script, tied: &'a Tied) -> Vec<PartFace<'a>> {
    let mut hung = script.head.strands.clone().unwrap_or_default();
    let mut parts = Vec::new();
    for kind in PartKind::ALL {
        let part = match kind {
            PartKind::Opening => &tied.opening,
            PartKind::Set => &tied.set,
            PartKind::Closing => &tied.closing,
        };
        let (Some(part), Some(block)) = (part, block_of(script, kind)) else { continue };
        let after = part.piece.threads_after(&hung);
        parts.push(PartFace { script, kind, block, part, hung: std::mem::replace(&mut hung, after) });
    }
    parts
}

impl PartFace<'_> {
    fn check(&self, facts: &mut Facts) {
        let face = self.block.statements.iter().find(|statement| statement.is::<FaceChart>());
        let before = facts.count();
        let face = face.and_then(|statement| read::read_face(self.script, statement, facts));
        if facts.count() > before {
            return;
        }
        match face {
            Some(face) if is_wish(self.script, self.kind) => wish::check_wish(self, &face, facts),
            Some(face) => promise::check_promise(self, &face, facts),
            None => {}
        }
        for statement in &self.block.statements {
            if let Some(Expect::Face(symmetry)) = statement.get() {
                symmetry::check_symmetry(self, *symmetry, place(statement), facts);
            }
        }
    }

    fn color(&self, strand: u8) -> ThreadId {
        self.hung.get(usize::from(strand)).copied().unwrap_or(ThreadId::MAX)
    }
}

fn block_of(script: &Script, kind: PartKind) -> Option<&Block> {
    let mut statements = script.source().parsed.tree.statements.iter();
    statements.find(|statement| PartKind::of(statement) == Some(kind))?.node.block()
}

/// The first word or two of a statement about faces.
fn word(statement: &Statement) -> Option<&'static str> {
    match statement.get() {
        Some(Expect::Face(_)) => Some("expect face"),
        Some(Expect::List(_) | Expect::Start { .. }) => None,
        None => statement.is::<FaceChart>().then_some("face"),
    }
}

fn place(statement: &Statement) -> Place {
    Place { file: FileId::CHECKED, span: statement.head }
}

/// A face stands directly in a part, and once.
fn check_places(script: &Script, facts: &mut Facts) {
    for statement in &script.source().parsed.tree.statements {
        let Some(block) = statement.node.block() else { continue };
        let is_part = PartKind::of(statement).is_some();
        let mut first = None;
        let mut walk = block.walk();
        while let Some(inner) = walk.next() {
            let Some(word) = word(inner) else { continue };
            if walk.depth() > 0 || !is_part {
                facts.say(place(inner), FactKind::FaceElsewhere { word });
            } else if inner.is::<FaceChart>() {
                match first {
                    None => first = Some(place(inner)),
                    Some(first) => facts.say(place(inner), FactKind::Repeated { statement: "face", first }),
                }
            }
        }
    }
}

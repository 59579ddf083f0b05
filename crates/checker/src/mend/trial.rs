//! Trying a candidate: the pattern is tied with its edit, and what is wrong then is counted.

use super::candidates::{Candidate, What};
use super::edits::{Hanging, KeptEdit, KnownKnots};
use super::habits::{Habits, MOST_OTHERS as MUCH};
use super::known::knots_with;
use super::lie::Lie;
use super::search::Goal;
use super::shape::{Blemishes, KnownBands};
use super::splice::{LaidBand, added_knots, known_knots, replace, splice};
use super::strands::StrandsEdit;
use crate::contents::Contents;
use crate::faces::{breaks_face, has_face};
use crate::facts::Facts;
use crate::resolve::Script;
use crate::tie::{Keep, KnownStart, Limits, Studied, Tied, tie_from, tie_hung, tie_parts};
use crate::woven::Sound;
use crate::{Checked, Fact, FactKind, PartKind, Pattern, Place, finders};
use knotwright_band::Piece;
use knotwright_grammar::tree::Sign;
use knotwright_numbers::ToNumber;
use rustc_hash::FxHashSet as HashSet;
use std::borrow::Cow;
use std::cell::OnceCell;
use std::mem::{Discriminant, discriminant};
use std::sync::Arc;

/// What all trials of one kind may cost together, in knots and statements.
pub(super) const BUDGET: u64 = 6_000_000;

/// How much more a look at the woven band costs than a tie.
const WEAVING: u64 = 20;

/// What all looks may cost together.
const LOOKS: u64 = 4_000_000;

/// What distinguishes one mistake from another.
pub(super) type Fault = (Place, Discriminant<FactKind>);

pub(super) fn fault_of(fact: &Fact) -> Fault {
    (fact.place, discriminant(&fact.kind))
}

/// How many of a band's knots may be gone after a mend. It never unties the band: of lines it leaves nine tenths, in a small
/// band all but four.
pub(super) fn lines_may_lose(knots: u64) -> u64 {
    (knots / 10).max(4)
}

/// An edit that may be offered.
#[derive(Debug, Clone)]
pub(super) enum Choice {
    /// Of what is tied.
    Step(Candidate),
    /// Of who hangs there.
    Strands(StrandsEdit),
}

impl Choice {
    /// The handicap of this kind of edit, in empty places. People write a wrong word more often than a wrong line, and a step
    /// that is put in fills places by itself. One too many is mostly one that stands there twice; any other was written on
    /// purpose.
    pub(super) fn odds(&self) -> usize {
        match self {
            Self::Step(candidate) if candidate.is_word() => 0,
            Self::Step(candidate)
                if candidate.is_added() || candidate.is_offset() || candidate.leaves_out() =>
            {
                ADDED_ODDS
            }
            Self::Step(_) | Self::Strands(_) => LINE_ODDS,
        }
    }

    /// 0 if a chart has then as many rows as those beside it, or another number stands there for a 0, which nobody writes; 2
    /// if the chart no longer has as many; else 1.
    pub(super) fn unlike(&self, gain: i32) -> u8 {
        match self {
            Self::Step(candidate) if matches!(candidate.what, What::Number { written: 0, .. }) => 0,
            Self::Step(candidate) if candidate.is_row() && gain >= MUCH => 0,
            Self::Step(candidate) if candidate.is_row() && gain <= -MUCH => 2,
            Self::Step(_) | Self::Strands(_) => 1,
        }
    }

    /// Whether a knot of a chart is not tied any more.
    pub(super) fn takes_away(&self) -> bool {
        let is_lost =
            |what: What| matches!(what, What::Mark { written, read: Sign::Dot } if written != Sign::Hash);
        matches!(self, Self::Step(candidate) if is_lost(candidate.what))
    }

    /// Whether it is of a mark of a leader.
    pub(super) fn leads(&self) -> bool {
        let is_hash = |what: What| matches!(what, What::Mark { written, read } if Sign::Hash == written || Sign::Hash == read);
        matches!(self, Self::Step(candidate) if is_hash(candidate.what))
    }

    /// Among equals: how far from the mistake, and how great a change.
    pub(super) fn near(&self) -> (u32, u8) {
        match self {
            Self::Step(candidate) => candidate.near(),
            Self::Strands(hung) => (u32::MAX, hung.size),
        }
    }
}

/// A choice after which, by the law of renaming, nothing is wrong.
#[derive(Debug)]
pub(super) struct SiftedChoice {
    pub(super) choice: Choice,
    /// Whether the set closes then.
    pub(super) closes: bool,
    /// How many knots are tied then; `None` if only a tie shows whether anything is wrong.
    pub(super) knots: Option<u64>,
    /// What the strands that follow rest on.
    pub(super) hanging: Option<Hanging>,
    pub(super) known: KnownKnots,
}

impl SiftedChoice {
    pub(super) fn edit(
        goal: &Goal,
        KeptEdit { candidate, closes, more, hanging, knots: known }: KeptEdit,
    ) -> Self {
        let knots = more.map(|more| goal.knots.saturating_add_signed(more));
        Self { choice: Choice::Step(candidate), closes, knots, hanging, known }
    }

    /// Of which only a tie shows whether anything is wrong.
    pub(super) fn unsure(choice: Choice) -> Self {
        Self { choice, closes: true, knots: None, hanging: None, known: KnownKnots::None }
    }
}

/// What came of a choice.
#[derive(Debug)]
pub(super) struct Trial {
    pub(super) choice: Choice,
    /// What is still wrong.
    pub(super) faults: Vec<Fault>,
    pub(super) closes: bool,
    /// How many knots are tied.
    pub(super) knots: u64,
    pub(super) known: KnownKnots,
}

/// Opening, set and closing.
pub(super) type Pieces = [Option<Piece>; 3];

/// The band that an edit makes.
#[derive(Debug)]
pub(super) struct EditedBand {
    tied: Tied,
    is_sound: bool,
    /// Whether it was found that it has holes.
    is_torn: bool,
    /// The script with other strands, if they are what was edited.
    hung: Option<Arc<Script>>,
    /// How its knots lie, once somebody has asked for it.
    lie: OnceCell<Lie>,
}

/// The same, looked at.
pub(super) struct Look<'a> {
    pub(super) pattern: &'a Pattern,
    pub(super) checked: Checked<'a>,
    pub(super) sound: Option<Sound<'a>>,
    pub(super) contents: &'a Contents<'a>,
    lie: OnceCell<Lie>,
}

impl<'a> Look<'a> {
    /// Of what is tied without an edit; `None` if nothing is.
    pub(super) fn of(checked: Checked<'a>, contents: &'a Contents<'a>) -> Option<Self> {
        let (pattern, sound) = (checked.pattern?, Sound::of(&checked));
        Some(Self { pattern, checked, sound, contents, lie: OnceCell::new() })
    }

    /// How its knots lie.
    pub(super) fn lie(&self) -> &Lie {
        let Self { pattern, checked, .. } = self;
        let parts = PartKind::ALL.map(|kind| pattern.part(kind));
        self.lie.get_or_init(|| Lie::of(&pattern.strands, parts, pattern.picks_by_color, checked.closes))
    }
}

/// Where choices are tried until the budget is used up.
pub(super) struct Workshop<'a> {
    goal: Goal<'a>,
    /// What ties may cost yet, and looks.
    budget: u64,
    looks: u64,
    contents: OnceCell<Contents<'a>>,
    habits: OnceCell<Habits<'a>>,
    known: KnownBands,
    /// How the band lies without an edit, if what is known of edits is enough to know how it lies with them.
    laid: OnceCell<Option<LaidBand>>,
    /// The pattern with the head of the script, and nothing tied: that changes from look to look.
    pattern: Option<Pattern>,
    /// What the pattern was found to rest on: then only what comes after an edit is tied for it.
    studied: Option<&'a Studied>,
    /// After which steps put in something was wrong before their place was passed again.
    in_vain: HashSet<Hanging>,
    /// Whether it was so with the last choice that was tied.
    fails_at_once: bool,
}

/// The order of choices after which all holds; the less, the better, and what stands first weighs most.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct ChoiceOrder {
    pub(super) warnings: usize,
    /// [`Choice::unlike`].
    pub(super) unlike: u8,
    /// Empty places, with those that [its odds](Choice::odds) and asymmetry count for.
    pub(super) empty: usize,
    /// Knots whose mirror image is not there.
    pub(super) lopsided: usize,
    /// How far from the mistake.
    pub(super) age: u32,
    /// How much worse it fits in with what stands around it than without the edit.
    pub(super) misfit: i32,
    /// How great a change.
    pub(super) size: u8,
}

impl ChoiceOrder {
    /// Where one with these odds comes at the earliest.
    const fn first(odds: usize) -> Self {
        Self { warnings: 0, unlike: 1, empty: odds, lopsided: 0, age: 0, misfit: i32::MIN, size: 0 }
    }
}

/// Where a step that is put in comes at the earliest.
pub(super) const FIRST_ADDED: ChoiceOrder = ChoiceOrder::first(ADDED_ODDS);

/// Where an edit of a line, or of who hangs there, comes at the earliest.
pub(super) const FIRST_LINE: ChoiceOrder = ChoiceOrder::first(LINE_ODDS);

/// How many empty places a wrong word outweighs against a step that is put in.
const ADDED_ODDS: usize = 4;

/// The same against a wrong line.
const LINE_ODDS: usize = 2;

impl<'a> Workshop<'a> {
    pub(super) fn new(goal: &Goal<'a>) -> Self {
        let (contents, habits, known) = (OnceCell::new(), OnceCell::new(), KnownBands::default());
        Self {
            goal: *goal,
            budget: BUDGET,
            looks: LOOKS,
            contents,
            habits,
            known,
            laid: OnceCell::new(),
            pattern: None,
            studied: None,
            in_vain: HashSet::default(),
            fails_at_once: false,
        }
    }

    /// With what the pattern was found to rest on.
    pub(super) fn knowing(self, studied: &'a Studied) -> Self {
        Self { studied: Some(studied), ..self }
    }

    /// Whether that many more ties can be afforded.
    pub(super) fn affords(&self, ties: usize) -> bool {
        !self.goal.is_given_up() && self.budget >= self.goal.cost.saturating_mul(ties.to_u64())
    }

    /// Whether that many bands can be looked at.
    pub(super) fn affords_looks(&self, bands: u64) -> bool {
        self.looks >= bands * self.look_cost()
    }

    /// How many mends are put in order.
    pub(super) fn most_in_order(&self) -> usize {
        self.goal.most_in_order()
    }

    fn look_cost(&self) -> u64 {
        WEAVING * self.goal.cost
    }

    /// What comes of a choice; it is only tied if the law of renaming does not say it. `None` if something is wrong then, or
    /// the band is lost with it.
    pub(super) fn judge(&mut self, sifted: SiftedChoice) -> Option<Trial> {
        let SiftedChoice { choice, closes, knots, hanging, known } = sifted;
        if hanging.as_ref().is_some_and(|hanging| self.in_vain.contains(hanging)) {
            return None;
        }
        match knots {
            Some(knots) => self.leaves_enough(&choice, knots).then_some(Trial {
                choice,
                faults: Vec::new(),
                closes,
                knots,
                known,
            }),
            None => {
                let tried = self.tried(choice, 0);
                if self.fails_at_once {
                    self.in_vain.extend(hanging);
                }
                tried
            }
        }
    }

    fn leaves_enough(&self, choice: &Choice, knots: u64) -> bool {
        let may_lose = match choice {
            Choice::Step(candidate) => candidate.may_lose(self.goal.knots),
            Choice::Strands(_) => lines_may_lose(self.goal.knots),
        };
        self.goal.knots.saturating_sub(knots) <= may_lose
    }

    /// Ties the pattern with an edit. `None` if it comes to no end, more than `most` is wrong, or the band is lost with it.
    pub(super) fn tried(&mut self, choice: Choice, most: usize) -> Option<Trial> {
        let mut facts = Facts::default();
        self.fails_at_once = false;
        let tells = most > 0;
        let limits = Limits { facts: most, tells, ..Limits::trial(self.goal.cost, self.goal.given_up) };
        let tied = self.tie(&choice, limits, &mut facts)?;
        self.fails_at_once = !tells && !tied.whole && tied.edited <= 1 && !self.goal.is_given_up();
        self.budget = self.budget.saturating_sub(tied.cost);
        let faults: Vec<Fault> = facts.into_list().iter().map(fault_of).collect();
        let closes = tied.closes != Some(false);
        let is_enough = self.leaves_enough(&choice, tied.knots);
        let trial = Trial { choice, faults, closes, knots: tied.knots, known: KnownKnots::None };
        (tied.whole && is_enough).then_some(trial)
    }

    /// The knots of a pattern with an edit; `before`: those without it. `None` if something is wrong, or the band is lost.
    pub(super) fn knots_of(&mut self, sifted: SiftedChoice, before: &Pieces) -> Option<(Trial, Pieces)> {
        let SiftedChoice { choice, known, .. } = sifted;
        let spliced = match (&choice, &known, self.studied) {
            (_, KnownKnots::Others(others), _) => replace(others, before),
            (Choice::Step(candidate), KnownKnots::Added, Some(studied)) => {
                added_knots(candidate, studied).and_then(|added| replace(&added, before))
            }
            (Choice::Step(candidate), _, Some(studied)) => splice(candidate, studied, before),
            _ => None,
        };
        self.spend_for_knots();
        if let Some(pieces) = spliced {
            let knots = pieces.iter().flatten().map(|piece| piece.knots().len().to_u64()).sum();
            let closes = self.goal.closes != Some(false);
            let is_enough = self.leaves_enough(&choice, knots);
            return is_enough.then_some((Trial { choice, faults: Vec::new(), closes, knots, known }, pieces));
        }
        let most = Limits::trial(self.goal.cost, self.goal.given_up);
        let limits = Limits { tells: false, keep: Keep::Knots, ..most };
        let tied = self.tie(&choice, limits, &mut Facts::default())?;
        let (closes, knots) = (tied.closes != Some(false), tied.knots);
        if !tied.whole || !self.leaves_enough(&choice, knots) {
            return None;
        }
        let mut pieces = [tied.opening, tied.set, tied.closing].map(|part| Some(part?.piece));
        let from = match &choice {
            Choice::Step(candidate) => self.beginning(candidate, limits),
            Choice::Strands(_) => None,
        };
        // What was tied before is not tied again.
        if let Some((part, own)) = from.map(|from| from.at()) {
            let rest = pieces[part].take();
            pieces[..=part].clone_from_slice(&before[..=part]);
            if let (Some(whole), Some(rest)) = (&mut pieces[part], rest) {
                let (end, hung) = (whole.knots().len().to_u32(), whole.order().to_vec());
                whole.replace(own..end, &hung, &rest);
            }
        }
        Some((Trial { choice, faults: Vec::new(), closes, knots, known }, pieces))
    }

    /// For the knots of an edit, of which the holes are counted as well: that takes as long as a tie.
    pub(super) fn spend_for_knots(&mut self) {
        self.budget = self.budget.saturating_sub(2 * self.goal.cost);
    }

    /// Where a tie may begin of which no step is kept and nothing told.
    fn beginning(&self, candidate: &Candidate, limits: Limits) -> Option<KnownStart<'_>> {
        let is_only_tried = limits.keep != Keep::All && !limits.tells && !candidate.from_above;
        self.studied.filter(|_| is_only_tried)?.beginning(candidate.statement)
    }

    fn tie(&self, choice: &Choice, limits: Limits, facts: &mut Facts) -> Option<Tied> {
        let script = self.goal.script;
        match choice {
            Choice::Step(candidate) => match self.beginning(candidate, limits) {
                Some(from) => tie_from(script, &candidate.overlay, limits, from),
                None => tie_parts(script, Some(&candidate.overlay), limits, facts),
            },
            Choice::Strands(hung) => tie_hung(self.goal.script, hung.threads.clone(), limits, facts),
        }
    }

    /// What the text says, however it is tied.
    fn contents(&self) -> &Contents<'a> {
        self.contents.get_or_init(|| Contents::of(self.goal.script.source()))
    }

    /// Where a choice comes among others, if its band has these blemishes. `gain`: how much better it fits in.
    pub(super) fn order(&self, choice: &Choice, gain: i32, found: &Blemishes) -> ChoiceOrder {
        let (warnings, empty, lopsided) = found.rank(choice.odds() + usize::from(gain < 0));
        let (age, size) = choice.near();
        ChoiceOrder { warnings, unlike: choice.unlike(gain), empty, lopsided, age, misfit: -gain, size }
    }

    /// How much better a step or a mark fits in with what stands around it than without the edit.
    pub(super) fn gain(&self, choice: &Choice) -> i32 {
        match choice {
            Choice::Step(candidate) if candidate.is_word() || candidate.is_row() => {
                self.habits.get_or_init(|| Habits::of(self.goal.script)).gain(candidate)
            }
            Choice::Step(_) | Choice::Strands(_) => 0,
        }
    }

    /// Whether there are warnings of names: they stay, whatever is tied.
    pub(super) fn warns_of_names(&self) -> bool {
        let script = self.goal.script;
        let (source, facts) = (script.source(), self.goal.facts);
        let checked = Checked { source, script, pattern: None, facts, closes: None, sound: false };
        !finders::find_in_names(&checked, self.contents()).is_empty()
    }

    /// Whether the pattern says what is to be seen. What an edit makes of that, only a look at the band shows.
    pub(super) fn promises_a_face(&self) -> bool {
        has_face(self.goal.script.source())
    }

    /// How the band looks that an edit makes; `None` as with [`Self::band`].
    pub(super) fn blemishes(&mut self, choice: Option<&Choice>) -> Option<Blemishes> {
        let mut band = self.band(choice)?;
        self.look(&mut band, Blemishes::of)
    }

    /// How the band looks that an edit makes, if it has fewer holes than `most`.
    pub(super) fn blemishes_below(&mut self, choice: &Choice, most: usize) -> Option<Blemishes> {
        let mut band = self.band(Some(choice))?;
        self.look(&mut band, |look, known| Blemishes::with_fewer_holes(look, known, most))?
    }

    /// Whether it may be known of that many bands how they lie before they are tied. In a long band only some are looked at, and
    /// to foresee how all of them lie would take longer.
    pub(super) fn foresees(&self, bands: usize) -> bool {
        self.affords_looks(bands.to_u64()) && self.laid().is_some()
    }

    /// How the band lies without an edit.
    fn laid(&self) -> Option<&LaidBand> {
        // Of a face that is promised, only a tie shows whether it is seen.
        let studied = self.studied.filter(|_| !self.promises_a_face())?;
        self.laid.get_or_init(|| LaidBand::of(studied)).as_ref()
    }

    /// No more than what is seen in how the knots lie, if that is known without a tie; of most edits, only how many places are
    /// empty.
    pub(super) fn least_blemishes(&self, trial: &Trial) -> Option<Blemishes> {
        let (laid, studied) = (self.laid()?, self.studied?);
        if let KnownKnots::Lie(lie) = &trial.known {
            return Some(**lie);
        }
        let known = match (&trial.choice, &trial.known) {
            (Choice::Step(candidate), KnownKnots::None) => {
                Cow::Owned(knots_with(candidate, studied, self.goal.script.source())?)
            }
            (choice, known) => known_knots(choice, known, studied)?,
        };
        let empty = laid.empty_places_with(&known)?;
        Some(Blemishes { empty, ..Blemishes::default() })
    }

    /// No more than what is seen in how the knots lie, unless the band is known. If more may be wrong with it, it is given back
    /// for a closer look.
    pub(super) fn rough_blemishes(
        &mut self,
        choice: &Choice,
    ) -> Option<(Blemishes, Option<Box<EditedBand>>)> {
        let mut band = self.band(Some(choice))?;
        let strands = self.script_of(&band).head.strands.as_deref()?;
        let Tied { opening, set, closing, picks_by_color, closes, .. } = &band.tied;
        let parts = [opening, set, closing].map(Option::as_ref);
        let lie = *band.lie.get_or_init(|| Lie::of(strands, parts, *picks_by_color, *closes));
        match self.known.whole(&lie) {
            Some(_) => Some((self.look(&mut band, Blemishes::of)?, None)),
            None => Some((lie.blemishes, Some(Box::new(band)))),
        }
    }

    /// What a closer look finds. Of a band with holes that is at first only that it has some: then it is given back for the
    /// next one.
    pub(super) fn closer_blemishes(
        &mut self,
        mut band: Box<EditedBand>,
    ) -> Option<(Blemishes, Option<Box<EditedBand>>)> {
        if band.is_torn {
            return Some((self.look(&mut band, Blemishes::of)?, None));
        }
        let whole = self
            .look(&mut band, |look, known| Blemishes::with_fewer_holes(look, known, 1).ok_or(*look.lie()))?;
        Some(match whole {
            Ok(found) => (found, None),
            Err(lie) => {
                band.is_torn = true;
                (Blemishes { warnings: 1, ..lie.blemishes }, Some(band))
            }
        })
    }

    /// Looks at the band that an edit makes; `None` as with [`Self::band`].
    pub(super) fn looked_at<T>(
        &mut self,
        choice: Option<&Choice>,
        look: impl FnOnce(&Look) -> T,
    ) -> Option<T> {
        let mut band = self.band(choice)?;
        self.look(&mut band, |found, _| look(found))
    }

    /// The band that an edit makes. `None` if it cannot be tied, shows another face than is promised, or the budget is used
    /// up.
    fn band(&mut self, choice: Option<&Choice>) -> Option<EditedBand> {
        let cost = self.look_cost();
        if self.looks < cost || self.goal.is_given_up() {
            return None;
        }
        self.looks -= cost;
        let mut facts = Facts::default();
        let limits = Limits { keep: Keep::All, ..Limits::trial(self.goal.cost, self.goal.given_up) };
        let retied = || match (choice?, self.goal.band, self.studied) {
            (Choice::Step(candidate), Some(band), Some(studied)) => band.with(&self.goal, studied, candidate),
            _ => None,
        };
        let tied = match choice {
            Some(choice) => retied().or_else(|| self.tie(choice, limits, &mut facts))?,
            None => tie_parts(self.goal.script, None, limits, &mut facts)?,
        };
        let hung = match choice {
            Some(Choice::Strands(hung)) => {
                let mut script = (**self.goal.script).clone();
                script.head.strands = Some(hung.threads.clone());
                script.head.start = crate::StartForm::Loose;
                Some(Arc::new(script))
            }
            _ => None,
        };
        let script = hung.as_ref().unwrap_or(self.goal.script);
        if choice.is_some() && breaks_face(script, &tied) {
            return None;
        }
        let is_sound = facts.count() == 0;
        Some(EditedBand { tied, is_sound, is_torn: false, hung, lie: OnceCell::new() })
    }

    /// What a band was tied from.
    fn script_of<'b>(&'b self, band: &'b EditedBand) -> &'b Script {
        band.hung.as_ref().unwrap_or(self.goal.script)
    }

    fn look<T>(
        &mut self,
        band: &mut EditedBand,
        look: impl FnOnce(&Look, &mut KnownBands) -> T,
    ) -> Option<T> {
        let script = band.hung.as_ref().unwrap_or(self.goal.script);
        let mut pattern = match self.pattern.take().filter(|_| band.hung.is_none()) {
            Some(pattern) => pattern,
            None => Pattern::new(Arc::clone(script), Tied::default())?,
        };
        pattern.exchange(&mut band.tied);
        let checked = Checked {
            source: script.source(),
            script,
            pattern: Some(&pattern),
            facts: &[],
            closes: band.tied.closes,
            sound: band.is_sound,
        };
        let mut known = std::mem::take(&mut self.known);
        let (sound, contents, lie) = (Sound::of(&checked), self.contents(), band.lie.clone());
        let found = look(&Look { pattern: &pattern, checked, sound, contents, lie }, &mut known);
        self.known = known;
        pattern.exchange(&mut band.tied);
        self.pattern = Some(pattern).filter(|_| band.hung.is_none());
        Some(found)
    }
}

//! A mistake in words or names makes much else wrong: `mirro` for `mirror` in `strands`, and no promise holds. So the edits
//! that such a mistake proposes are tried in the whole text. What is not wrong any more after one of them followed from the
//! mistake, and is not said by itself.

use super::reread::{Reread, Rereader, WrongAt};
use crate::rephrase::Orphans;
use crate::{Edit, Fact, FactKind, FileId, Finding, Mend, Note, Place, Source, rules};
use knotwright_grammar::TokenKind;
use knotwright_grammar::tree::Due;

/// How many edits are tried for the braces of one file, and for all the rest.
const MOST_BRACE_TRIES: usize = 32;
const MOST_TRIES: usize = 16;

/// How many ways are offered to put a brace right, or a number in.
const MOST_LIKELY: usize = 4;

/// What is wrong with a file, while its causes are looked for.
#[derive(Debug)]
pub(crate) struct Wrongs {
    /// Words and names.
    pub(crate) reported: Vec<Finding>,
    /// What was found when it was tied.
    pub(crate) untied: Vec<Finding>,
}

/// An edit of the text, and what was found wrong with it.
struct TriedMend {
    mend: Mend,
    reread: Option<Reread>,
}

impl Wrongs {
    /// Tries what the mistakes propose, and keeps of it what puts them right; of all that is wrong, those are left out
    /// that follow from another.
    pub(crate) fn settled(mut self, rereader: &Rereader) -> Self {
        // Where a block is not one, much of what stands in it cannot be read.
        self.settle_all(rereader, MOST_BRACE_TRIES, is_brace);
        self.settle_all(rereader, MOST_TRIES, |finding| !is_brace(finding));
        self.prove_together(rereader);
        self.under_a_lost_line(rereader.source())
    }

    /// The same of some of the mistakes.
    fn settle_all(&mut self, rereader: &Rereader, mut tries: usize, which: impl Fn(&Finding) -> bool) {
        let mut at = 0;
        while at < self.reported.len() {
            if !which(&self.reported[at]) {
                at += 1;
                continue;
            }
            let mends = std::mem::take(&mut self.reported[at].mends);
            if mends.len() > tries {
                self.reported[at].mends = mends;
                break;
            }
            tries -= mends.len();
            let tried = mends.into_iter().map(|mend| TriedMend { reread: rereader.after(&mend.edits), mend });
            let kept: Vec<TriedMend> = tried.filter(|tried| self.is_put_right(at, tried)).collect();
            at = self.settle(at, kept, rereader.source()) + 1;
        }
    }

    /// Several slips in words, each with one mend: these are certain if nothing is wrong after all of them.
    fn prove_together(&mut self, rereader: &Rereader) {
        let only = |finding: &Finding| match &finding.mends[..] {
            [mend] if rules::is_of_a_word(finding) && !mend.is_guess => Some(mend.edits.clone()),
            _ => None,
        };
        let edits: Option<Vec<Vec<Edit>>> = self.reported.iter().map(only).collect();
        let is_several = |all: &Vec<_>| (2..=MOST_TRIES).contains(&all.len());
        let Some(edits) = edits.filter(is_several).map(|all| all.concat()) else { return };
        let are_all = edits.iter().all(|edit| stands_as_often(edit, &edits, rereader.source()));
        if !are_all || !rereader.after(&edits).is_some_and(|reread| reread.holds()) {
            return;
        }
        for mend in self.reported.iter_mut().flat_map(|finding| &mut finding.mends) {
            mend.title.push_str(": all holds then, with the mends of the others");
            mend.certain = true;
        }
    }

    /// Where nobody knows which line opened a block, nobody knows how the strands hang after it.
    fn under_a_lost_line(mut self, source: &Source) -> Self {
        if let [lost] = &mut self.reported[..]
            && lost.place.file == FileId::CHECKED
            && Orphans::begin_at(lost.place.span, source)
        {
            let place = lost.place;
            let (stays, follows): (Vec<_>, Vec<_>) =
                std::mem::take(&mut self.untied).into_iter().partition(|finding| finding.place < place);
            note_what_follows(lost, places_of(&follows));
            self.untied = stays;
        }
        self
    }

    /// Without a step that gives a label, or without a strand, nothing is as it should be: what is wrong with the tie follows
    /// from that, also before the label is used, as the step may belong anywhere before.
    pub(crate) fn under_what_is_missing(mut self, named: &[Fact]) -> Self {
        if self.is_of_what_is_missing(named) {
            let follows = std::mem::take(&mut self.untied);
            note_what_follows(&mut self.reported[0], places_of(&follows));
        }
        self
    }

    /// Whether a step that gives a label is missing, or a strand, and nothing else is wrong with words and names.
    pub(crate) fn is_of_what_is_missing(&self, named: &[Fact]) -> bool {
        let is_missing = |fact: &Fact| match &fact.kind {
            FactKind::UnknownName(unknown) => {
                unknown.due == Due::Label && unknown.nearest.is_none() && unknown.uncalled.is_none()
            }
            kind => matches!(kind, FactKind::OddPairs { .. }),
        };
        matches!((&self.reported[..], named), ([missing], [fact]) if is_missing(fact) && missing.place == fact.place)
    }

    fn count(&self) -> usize {
        self.reported.len() + self.untied.len()
    }

    /// Whether a mistake is gone after an edit, and nothing else is wrong with words and names instead. What could not be
    /// tried may stay.
    fn is_put_right(&self, at: usize, TriedMend { mend, reread }: &TriedMend) -> bool {
        let Some(reread) = reread else { return !mend.is_guess };
        let own = WrongAt::of(&self.reported[at]).after(&mend.edits);
        reread.reported.len() < self.reported.len() && !reread.reported.contains(&own)
    }

    /// Gives a mistake its mends, and leaves out what follows from it. Where it is then.
    fn settle(&mut self, at: usize, mut kept: Vec<TriedMend>, source: &Source) -> usize {
        kept.sort_by_key(|tried| tried.reread.as_ref().map_or(usize::MAX, Reread::count));
        let holds = |tried: &TriedMend| tried.reread.as_ref().is_some_and(Reread::holds);
        let is_brace = is_brace(&self.reported[at]);
        if is_brace || kept.len() > MOST_LIKELY {
            keep_likely(&mut kept);
        }
        // That all who call a name misspell it alike is hardly another way.
        let is_name = std::ptr::eq(self.reported[at].rule, &rules::unknown_name::RULE);
        let counts = |tried: &&TriedMend| holds(tried) && !(is_name && tried.mend.is_guess);
        let is_only = kept.iter().filter(counts).count() == 1;
        let best = kept.first().and_then(|first| {
            // Whatever a block is called, its lines are in it.
            let reread = first.reread.clone().filter(|reread| is_brace || reread.count() < self.count())?;
            (is_brace || !first.mend.is_guess).then(|| (first.mend.clone(), reread))
        });
        let mends = kept.into_iter().map(|tried| {
            let is_certain =
                is_only && holds(&tried) && !tried.mend.is_guess && stands_once(&tried.mend, source);
            if is_certain { tried.mend.proved() } else { tried.mend }
        });
        self.reported[at].mends = mends.collect();
        let Some((mend, reread)) = best else { return at };
        let own = &mut self.reported[at];
        // It may have been a word of the notation.
        let is_asked = own.help.as_ref().is_some_and(|help| help.starts_with("Did you mean"));
        if is_name
            && !is_asked
            && let Some(edit) = mend.edits.first()
        {
            own.help = Some(format!("Did you mean `{}`?", edit.text));
        }
        self.leave_out(at, &mend, &reread)
    }

    /// Leaves out what is not wrong any more after the edit of one mistake. Where that one is then.
    fn leave_out(&mut self, at: usize, mend: &Mend, left: &Reread) -> usize {
        let stays = |finding: &Finding| left.contains(&WrongAt::of(finding).after(&mend.edits));
        let reported = std::mem::take(&mut self.reported).into_iter().enumerate();
        let (reported, gone): (Vec<_>, Vec<_>) =
            reported.partition(|(number, finding)| *number == at || stays(finding));
        let (untied, also): (Vec<_>, Vec<_>) =
            std::mem::take(&mut self.untied).into_iter().partition(|finding| stays(finding));
        let place = reported.iter().position(|(number, _)| *number == at).unwrap_or(at);
        self.reported = reported.into_iter().map(|(_, finding)| finding).collect();
        self.untied = untied;
        let own = &mut self.reported[place];
        let gone: Vec<Finding> = gone.into_iter().map(|(_, finding)| finding).chain(also).collect();
        note_what_follows(own, places_of(&gone));
        place
    }
}

fn is_brace(finding: &Finding) -> bool {
    std::ptr::eq(finding.rule, &rules::unmatched_brace::RULE)
}

/// Of many ways to put something right, those after which nothing is wrong; without one, those few that help most.
fn keep_likely(kept: &mut Vec<TriedMend>) {
    let holds = |tried: &TriedMend| tried.reread.as_ref().is_some_and(Reread::holds);
    if kept.iter().any(holds) {
        kept.retain(holds);
    }
    kept.sort_by_key(|tried| tried.reread.as_ref().map(|reread| reread.reported.len()));
    kept.truncate(MOST_LIKELY);
}

/// Where some findings are.
pub(crate) fn places_of(findings: &[Finding]) -> impl Iterator<Item = Place> {
    findings.iter().map(|finding| finding.place)
}

/// Notes of a mistake where what followed from it begins. `gone`: where that is.
pub(crate) fn note_what_follows(mistake: &mut Finding, gone: impl Iterator<Item = Place>) {
    // What the same words led to stands where the mistake itself is, or where something is said of it already.
    let said: Vec<Place> = mistake.notes.iter().map(|note| note.place).chain([mistake.place]).collect();
    let is_elsewhere = |place: Place| {
        said.iter().all(|own| {
            place.file != own.file || place.span.start > own.span.end || place.span.end < own.span.start
        })
    };
    let places: Vec<Place> = gone.filter(|&place| is_elsewhere(place)).collect();
    if let Some(&place) = places.iter().min() {
        let text = format!("what follows from it ({} more) begins here", places.len());
        mistake.notes.push(Note { place, text });
    }
}

/// Whether the word that a mend replaces stands nowhere else: there, or where it is replaced as well, it may be a name that
/// the author forgot to give.
fn stands_once(mend: &Mend, source: &Source) -> bool {
    let of = |edit: &Edit| edit.place.span.of(&source.text);
    let Some(first) = mend.edits.first() else { return true };
    if mend.edits.iter().any(|edit| edit.place.file != FileId::CHECKED) {
        return false;
    }
    if first.place.span.is_empty() || mend.edits.iter().any(|edit| of(edit) != of(first)) {
        return true;
    }
    let words = source.parsed.tokens.iter().filter(|token| token.kind == TokenKind::Word);
    words.filter(|token| token.span.of(&source.text) == of(first)).take(2).count() <= 1
}

/// Whether the word that an edit replaces stands nowhere but where one of `edits` replaces it.
fn stands_as_often(edit: &Edit, edits: &[Edit], source: &Source) -> bool {
    let of = |span: knotwright_grammar::Span| span.of(&source.text);
    if edit.place.file != FileId::CHECKED || edit.place.span.is_empty() {
        return edit.place.file == FileId::CHECKED;
    }
    let words = source.parsed.tokens.iter().filter(|token| token.kind == TokenKind::Word);
    let same = words.filter(|token| of(token.span) == of(edit.place.span));
    same.take(edits.len() + 1).all(|token| edits.iter().any(|edit| edit.place.span == token.span))
}

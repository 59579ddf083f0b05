//! The line to one page.

use crate::band::BandTeller;
use crate::colors::{changing_colorway, colors, recolor};
use crate::lengths::{lengths, usual_sets};
use crate::looking::Sight;
use crate::message::{
    Colors, FindingMessage, Findings, LengthsMessage, Numbered, PageMessage, PageRequest, StepName,
    ViewOptions,
};
use crate::place::{broken, spot, spot_of, under};
use crate::preview::Shared;
use axum::extract::ws::{Message, WebSocket};
use knotwright_checker::{FileId, Place, Report, Severity};
use knotwright_grammar::LineIndex;
use knotwright_maker::scripted_to_see;
use knotwright_numbers::ToNumber;
use std::collections::VecDeque;
use std::sync::Arc;

/// How many looks are remembered: a click that is on its way while somebody types is about one of them. Long bands take room.
const MOST_TOLD: usize = 3;

/// What was sent to one page, and what it wants.
pub(crate) struct PageConnection {
    shared: Shared,
    desk: PageState,
    /// What the page was told of, the newest last.
    told: VecDeque<Sight>,
}

/// What is needed to know what to send next. It is worked on in another thread, where that may take time.
#[derive(Default)]
struct PageState {
    wish: ViewOptions,
    telling: BandTeller,
    /// The look whose band was sent, with how many sets, whether with its chart, and in which colorway if that matters.
    banded: Option<(u64, Option<u32>, bool, Option<String>)>,
    colored: Option<Colors>,
    /// The look whose thread was computed, with how many sets, and as it is called in which colorway; and what was sent of
    /// it.
    measured: Option<(u64, Option<u32>, Option<String>)>,
    lengths: Option<LengthsMessage>,
    /// The look whose findings were sent.
    found: u64,
    lit: Option<Vec<StepName>>,
}

impl PageConnection {
    pub(crate) fn new(shared: Shared) -> Self {
        Self { shared, desk: PageState::default(), told: VecDeque::new() }
    }

    /// Until the page or the owner is gone. What changed in the meantime is sent once, in its last state.
    pub(crate) async fn run(mut self, mut socket: WebSocket) {
        let home = PageMessage::Home { again: self.shared.owner.again() };
        if send(&mut socket, &home).await.is_none() {
            return;
        }
        loop {
            let (sight, cursor) =
                (self.shared.sight.borrow_and_update().clone(), *self.shared.cursor.borrow_and_update());
            if sight.number > 0 && self.tell(&mut socket, sight, cursor).await.is_none() {
                return;
            }
            let asked = tokio::select! {
                // A click comes before the next look, so that it is about one of the last.
                biased;
                asked = socket.recv() => asked.and_then(Result::ok).map(Some),
                seen = self.shared.sight.changed() => seen.ok().map(|()| None),
                moved = self.shared.cursor.changed() => moved.ok().map(|()| None),
            };
            let said = match asked {
                None => return,
                Some(Some(Message::Text(text))) => self.answer(&text).await,
                Some(_) => None,
            };
            if let Some(text) = said
                && send(&mut socket, &PageMessage::Said { text }).await.is_none()
            {
                return;
            }
        }
    }

    /// Sends what is new; `None` if the page is gone.
    async fn tell(&mut self, socket: &mut WebSocket, sight: Sight, cursor: Option<u32>) -> Option<()> {
        send_all(socket, self.news(&sight, cursor).await).await?;
        // The picture does not wait for its thread to be computed.
        let lengths = self.made(move |desk| desk.lengths(&sight).into_iter().collect()).await;
        send_all(socket, lengths).await
    }

    /// What is new in a sight. The page may ask about it from now on.
    async fn news(&mut self, sight: &Sight, cursor: Option<u32>) -> Vec<String> {
        let seen = sight.clone();
        if self.told.back().is_none_or(|last| last.number != sight.number) {
            self.told.push_back(sight.clone());
        }
        if self.told.len() > MOST_TOLD {
            self.told.pop_front();
        }
        self.made(move |desk| desk.news(&seen, cursor)).await
    }

    /// Messages as they are sent, made in another thread.
    async fn made(
        &mut self,
        news: impl FnOnce(&mut PageState) -> Vec<PageMessage> + Send + 'static,
    ) -> Vec<String> {
        let mut desk = std::mem::take(&mut self.desk);
        let wish = desk.wish.clone();
        let work = move || {
            let messages = news(&mut desk);
            let texts: Vec<String> =
                messages.iter().filter_map(|message| serde_json::to_string(message).ok()).collect();
            (desk, texts)
        };
        // After a mistake of ours the page is sent everything again.
        let (desk, texts) = tokio::task::spawn_blocking(work)
            .await
            .unwrap_or_else(|_| (PageState { wish, ..PageState::default() }, Vec::new()));
        self.desk = desk;
        texts
    }

    /// Does what the page asks; what there is to say to it. What cannot be understood is no question.
    async fn answer(&mut self, text: &str) -> Option<String> {
        let asked: PageRequest = serde_json::from_str(text).ok()?;
        if let PageRequest::Wish(wish) = asked {
            self.desk.wish = wish;
            return None;
        }
        let (owner, wish) = (Arc::clone(&self.shared.owner), self.desk.wish.clone());
        // Any other sight may have other findings, steps and threads of the same numbers.
        let sight = match self.told.iter().find(|sight| asked.look() == Some(sight.number)) {
            Some(sight) => sight.clone(),
            None => {
                return Some(
                    "That is from an older text of the pattern, which is no longer there.".to_owned(),
                );
            }
        };
        let work = move || match asked {
            PageRequest::Show { step, .. } => owner.show(spot_of(sight.shown()?, step)?),
            PageRequest::Finding { number, .. } => {
                let report = sight.report.as_ref()?;
                owner.show(spot(report, report.findings.get(number)?.place)?)
            }
            PageRequest::Write { thread, .. } => {
                let report = sight.report.as_ref()?;
                let found = recolor(report.files.first()?, report.pattern.as_ref()?, &wish, thread);
                let nowhere = || {
                    "This thread has no color of its own in the pattern; change its color in the file."
                        .to_owned()
                };
                Some(found.map_or_else(nowhere, |recolor| owner.recolor(recolor)))
            }
            PageRequest::Wish(_) => None,
        };
        tokio::task::spawn_blocking(work).await.ok().flatten()
    }
}

async fn send(socket: &mut WebSocket, message: &PageMessage) -> Option<()> {
    let text = serde_json::to_string(message).ok()?;
    socket.send(Message::Text(text.into())).await.ok()
}

async fn send_all(socket: &mut WebSocket, texts: Vec<String>) -> Option<()> {
    for text in texts {
        socket.send(Message::Text(text.into())).await.ok()?;
    }
    Some(())
}

impl Sight {
    /// What the picture is of: the newest text without errors; without any, the newest.
    fn shown(&self) -> Option<&Report> {
        self.good.as_deref().or(self.report.as_deref())
    }
}

impl PageState {
    fn news(&mut self, sight: &Sight, cursor: Option<u32>) -> Vec<PageMessage> {
        let mut messages = Vec::new();
        let mut trouble = None;
        if let Some(pattern) = sight.shown().and_then(|report| report.pattern.as_ref()) {
            let colors = colors(pattern, &self.wish);
            if self.colored.as_ref() != Some(&colors) {
                self.colored = Some(colors.clone());
                messages.push(PageMessage::Colors(Numbered::new(sight.number, colors)));
            }
            let colorway = changing_colorway(pattern, &self.wish);
            let asked = (sight.number, self.wish.sets, self.wish.chart, colorway.map(str::to_owned));
            if self.banded.as_ref() != Some(&asked) {
                self.banded = Some(asked);
                let sets = self.wish.sets.or_else(|| usual_sets(pattern));
                match scripted_to_see(pattern, sets, colorway) {
                    Ok(script) => {
                        let band = self.telling.band(&script, self.wish.chart);
                        messages.push(PageMessage::Band(Numbered::new(sight.number, Box::new(band))));
                    }
                    Err(reason) => trouble = Some(reason),
                }
            }
        }
        if self.found != sight.number || trouble.is_some() {
            self.found = sight.number;
            messages.push(PageMessage::Findings(Numbered::new(sight.number, findings(sight, trouble))));
        }
        let newest = sight.report.as_deref();
        let steps = newest.zip(cursor).map(|(report, cursor)| under(report, cursor)).unwrap_or_default();
        if self.lit.as_ref() != Some(&steps) {
            self.lit = Some(steps.clone());
            messages.push(PageMessage::Cursor { steps });
        }
        messages
    }

    /// How much thread the band that is shown takes, if that is news.
    fn lengths(&mut self, sight: &Sight) -> Option<PageMessage> {
        let pattern = sight.shown()?.pattern.as_ref()?;
        let asked = (sight.number, self.wish.sets, self.wish.colorway.clone());
        if self.measured.replace(asked.clone()) == Some(asked) {
            return None;
        }
        let lengths = lengths(pattern, &self.wish);
        if self.lengths.as_ref() == Some(&lengths) {
            return None;
        }
        self.lengths = Some(lengths.clone());
        Some(PageMessage::Lengths(lengths))
    }
}

fn findings(sight: &Sight, trouble: Option<String>) -> Findings {
    let Some(report) = &sight.report else {
        let trouble = trouble.or_else(|| Some("The file cannot be found right now.".to_owned()));
        return Findings { list: Vec::new(), broken: Some(('o', 0)), trouble };
    };
    let no_band = || report.pattern.is_none().then(|| "This file has no band yet.".to_owned());
    let lines: Vec<LineIndex> = report.files.iter().map(|file| LineIndex::new(&file.text)).collect();
    let library = |place: Place| {
        let file = report.files.get(place.file.0.to_usize()).filter(|_| place.file != FileId::CHECKED);
        file.map(|file| file.path.clone())
    };
    let finding = |of: &knotwright_checker::Finding| FindingMessage {
        error: of.severity == Severity::Error,
        rule: of.rule.name,
        message: of.message.clone(),
        help: of.help.clone(),
        file: library(of.place),
        line: lines.get(of.place.file.0.to_usize()).map_or(1, |lines| lines.line(of.place.span.start) + 1),
    };
    Findings {
        list: report.findings.iter().map(finding).collect(),
        broken: broken(report),
        trouble: trouble.or_else(no_band),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::owner::{Destination, Owner, Recolor};
    use knotwright_checker::{Library, NoLibrary, OpenError, Settings, Source, check};
    use std::sync::Mutex;
    use tokio::sync::watch;

    /// Remembers what it was to show.
    #[derive(Default)]
    struct Guide(Mutex<Vec<String>>);

    impl Owner for Guide {
        fn look(&self) -> Option<Arc<Report>> {
            None
        }

        fn again(&self) -> String {
            String::new()
        }

        fn show(&self, spot: Destination) -> Option<String> {
            let span = spot.span.start.to_usize()..spot.span.end.to_usize();
            self.0.lock().unwrap().push(spot.text[span].to_owned());
            None
        }

        fn recolor(&self, recolor: Recolor) -> String {
            recolor.color
        }
    }

    fn sight(number: u64, unused: &str, steps: &str) -> Sight {
        let text = format!(
            "pattern \"Reeds\"\nthread mud tan\nthread {unused} gray\nstrands 2 mud\nset {{\n{steps}}}\n"
        );
        let report = Arc::new(check(Arc::new(Source::new("a.knot", text)), &NoLibrary, &Settings::default()));
        Sight { number, report: Some(Arc::clone(&report)), good: Some(report) }
    }

    fn page_of(guide: &Arc<Guide>) -> PageConnection {
        let owner = Arc::clone(guide) as Arc<dyn Owner>;
        let (_, sight) = watch::channel(Sight::default());
        let (_, cursor) = watch::channel(None);
        PageConnection::new(Shared { owner, sight, cursor })
    }

    /// A click while the newest text is on its way to the page reaches us after that text was sent.
    #[tokio::test]
    async fn a_click_is_about_what_the_page_showed_then() {
        let guide = Arc::new(Guide::default());
        let mut page = page_of(&guide);
        let first = sight(1, "silt", "take left 1: forward 1\ntake right 1: backward 1\n");
        let second = sight(2, "reed", "take left 1: forward 1\ntake left 1: forward 1\n");
        page.news(&first, None).await;
        page.news(&second, None).await;
        for look in [1, 2] {
            let show = format!(r#"{{"ask": "show", "step": ["s", 1], "look": {look}}}"#);
            let finding = format!(r#"{{"ask": "finding", "number": 0, "look": {look}}}"#);
            assert_eq!(page.answer(&show).await, None);
            assert_eq!(page.answer(&finding).await, None);
        }
        let shown = guide.0.lock().unwrap().clone();
        assert_eq!(shown, ["take right 1: backward 1", "silt", "take left 1: forward 1", "reed"]);
    }

    #[tokio::test]
    async fn a_click_on_what_is_long_gone_leads_nowhere_and_says_so() {
        let guide = Arc::new(Guide::default());
        let mut page = page_of(&guide);
        for number in 1..=10 {
            page.news(&sight(number, "silt", "take left 1: forward 1\n"), None).await;
        }
        let said = page.answer(r#"{"ask": "finding", "number": 0, "look": 2}"#).await;
        assert_eq!(
            said.as_deref(),
            Some("That is from an older text of the pattern, which is no longer there.")
        );
        assert!(guide.0.lock().unwrap().is_empty());
        assert_eq!(page.answer(r#"{"ask": "finding", "number": 0, "look": 10}"#).await, None);
        assert_eq!(*guide.0.lock().unwrap(), ["silt"]);
    }

    /// The page says the number of the look again when it asks about a step, a finding or a thread.
    #[tokio::test]
    async fn what_can_be_asked_about_is_sent_with_its_look() {
        let mut page = page_of(&Arc::default());
        let sent = page.news(&sight(7, "silt", "take left 1: forward 1\n"), None).await;
        let sent: Vec<serde_json::Value> =
            sent.iter().map(|text| serde_json::from_str(text).unwrap()).collect();
        for kind in ["colors", "band", "findings"] {
            let message = sent.iter().find(|message| message["kind"] == kind).unwrap();
            assert_eq!(message["look"], 7, "{kind}");
        }
    }

    /// One file, whatever it is called.
    struct Shelf;

    impl Library for Shelf {
        fn open(&self, _: &str, path: &str) -> Result<Arc<Source>, OpenError> {
            let text = "motif sweep() {\n  take left 1 (silt): forward 1\n}\n";
            Ok(Arc::new(Source::new(path, text)))
        }
    }

    #[test]
    fn a_finding_in_a_library_names_its_file() {
        let text = "pattern \"Reeds\"\nuse sweep from \"parts.knot\"\nthread mud tan\nthread silt gray\n\
                    strands mud silt\nset {\nwork sweep()\ntake left 9: forward 1\n}\n";
        let report = check(Arc::new(Source::new("a.knot", text)), &Shelf, &Settings::default());
        let sight = Sight { number: 1, report: Some(Arc::new(report)), good: None };
        let told: Vec<_> =
            findings(&sight, None).list.into_iter().map(|finding| (finding.file, finding.line)).collect();
        assert_eq!(told, [(None, 8), (Some("parts.knot".to_owned()), 2)]);
    }
}

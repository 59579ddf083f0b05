//! The words of a chart, in one place, so that another language is another table.

/// What a legend says. The names of the kinds are those of the notation in every language.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ChartWords {
    /// Of a forward knot.
    pub forward: String,
    /// Of a backward knot.
    pub backward: String,
    /// Of a forward-backward knot.
    pub forward_backward: String,
    /// Of a backward-forward knot.
    pub backward_forward: String,
    /// Of a leader that ties on a strand.
    pub leader_shows: String,
    /// Of a strand that ties on the leader.
    pub strand_shows: String,
    /// Of what nothing ties yet.
    pub wished: String,
    /// Of a strand that goes on with a new piece of thread.
    pub joined: String,
    /// What is wide and what is thin.
    pub ribbon: String,
    /// In which order to tie rows without a leader.
    pub order: String,
    /// On which side the number of a row is.
    pub side: String,
    /// Of ends that are drawn shorter than they are.
    pub ends: String,
    /// Above what is tied once, at the start.
    pub opening: String,
    /// Above a set; a number may follow.
    pub set: String,
    /// Above sets that are tied alike; their numbers follow.
    pub sets: String,
    /// Of sets that are not drawn: `{numbers}`.
    pub left_out: String,
    /// Of one that is not.
    pub left_out_one: String,
    /// Above what is tied once, at the end.
    pub closing: String,
}

impl Default for ChartWords {
    /// English.
    fn default() -> Self {
        Self {
            forward: "forward: left over right, they change places".into(),
            backward: "backward: right over left, they change places".into(),
            forward_backward: "forward-backward: left over right, each stays".into(),
            backward_forward: "backward-forward: right over left, each stays".into(),
            leader_shows: "the leader ties on the strand".into(),
            strand_shows: "the strand ties on the leader".into(),
            wished: "to be seen here; nothing ties it yet".into(),
            joined: "the strand goes on with a new piece of thread".into(),
            ribbon: "wide: the strand that ties; thin: what it is tied on".into(),
            order: "row by row from the top; within a row as you like".into(),
            side: "a row's number is at the side where you begin it".into(),
            ends: "the ends are not drawn to scale".into(),
            opening: "Opening".into(),
            set: "Set".into(),
            sets: "Sets".into(),
            left_out: "Sets {numbers} are not shown here: follow the steps.".into(),
            left_out_one: "Set {numbers} is not shown here: follow the steps.".into(),
            closing: "Closing".into(),
        }
    }
}

//! What can be read off a view: who hangs where in the range, counted as the text counts.

use crate::Checked;
use crate::hang::thread_name;
use knotwright_checker::View;

/// How many strands the range has.
pub(crate) fn width(view: &View) -> usize {
    usize::from(view.within.1 - view.within.0) + 1
}

/// The band's position of the `local`-th strand of the range, counted from 1 from its left.
pub(crate) fn position(view: &View, local: usize) -> usize {
    let (low, high) = (usize::from(view.within.0), usize::from(view.within.1));
    if view.mirrored { (high + 1).saturating_sub(local) } else { low + local - 1 }
}

/// The thread at the `local`-th place of the range; `u16::MAX` if it is not known.
pub(crate) fn thread(view: &View, local: usize) -> u16 {
    let strand = view.order.get(position(view, local)).copied().unwrap_or(u8::MAX);
    view.threads.get(usize::from(strand)).copied().unwrap_or(u16::MAX)
}

/// The names of the threads in the range, from its left.
pub(crate) fn names<'c>(checked: &'c Checked, view: &View) -> Vec<&'c str> {
    let Some(pattern) = checked.pattern() else { return Vec::new() };
    (1..=width(view)).map(|local| thread_name(pattern, thread(view, local))).collect()
}

/// The inverse of [`position`].
pub(crate) fn local(view: &View, position: usize) -> usize {
    let (low, high) = (usize::from(view.within.0), usize::from(view.within.1));
    if view.mirrored { (high + 1).saturating_sub(position) } else { (position + 1).saturating_sub(low) }
}

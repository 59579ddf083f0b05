//! What the page is made of.

/// A file of the page: its name, its media type, its text.
pub(crate) type Asset = (&'static str, &'static str, &'static str);

const SCRIPT: &str = "text/javascript; charset=utf-8";

/// The page itself has no name.
pub(crate) const ASSETS: &[Asset] = &[
    ("", "text/html; charset=utf-8", include_str!("page/index.html")),
    ("page.css", "text/css; charset=utf-8", include_str!("page/page.css")),
    ("theme.js", SCRIPT, include_str!("page/theme.js")),
    ("main.js", SCRIPT, include_str!("page/main.js")),
    ("line.js", SCRIPT, include_str!("page/line.js")),
    ("band.js", SCRIPT, include_str!("page/band.js")),
    ("ink.js", SCRIPT, include_str!("page/ink.js")),
    ("chart.js", SCRIPT, include_str!("page/chart.js")),
    ("tied.js", SCRIPT, include_str!("page/tied.js")),
    ("canvas.js", SCRIPT, include_str!("page/canvas.js")),
    ("scrubber.js", SCRIPT, include_str!("page/scrubber.js")),
    ("threads.js", SCRIPT, include_str!("page/threads.js")),
    ("words.js", SCRIPT, include_str!("page/words.js")),
];

//! A review as one page that holds all that it shows: it needs no network, runs nothing, and asks for nothing.

use super::phrases::{cause, circumstances, gist, has_details, heading, summary, wrong};
use super::{ChangeKind, Pictures, Review, ReviewRow};
use crate::compared::changes;
use crate::markup::{escaped, picture, policy};
use crate::visible::on_one_line;

const STYLE: &str = include_str!("review.css");

/// The page. `pictures`: by row, as SVG.
pub(crate) fn html(review: &Review, pictures: &[Option<Pictures>]) -> String {
    let (policy, summary) = (policy(STYLE), text(&summary(review)));
    let mut body = format!("<header>\n<h1>What changed in the bands</h1>\n<p>{summary}</p>\n</header>\n");
    body += &contents(review);
    for kind in ChangeKind::TOLD {
        let rows = review.rows.iter().enumerate().filter(|(_, row)| row.kind == kind);
        let rows: String = rows.map(|(at, row)| article(at, row, pictures.get(at))).collect();
        if !rows.is_empty() {
            body += &format!(
                "<section id=\"{0}\">\n<h2>{1}</h2>\n{rows}</section>\n",
                kind.name(),
                heading(kind)
            );
        }
    }
    body += &causes(review);
    format!(
        "<!doctype html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n\
         <meta http-equiv=\"RowBands-Security-Policy\" content=\"{policy}\">\n\
         <meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n\
         <meta name=\"color-scheme\" content=\"light dark\">\n<title>{summary}</title>\n<style>{STYLE}</style>\n\
         </head>\n<body>\n<main>\n{body}</main>\n</body>\n</html>\n"
    )
}

/// The name by which the row of that number is found on the page.
fn anchor(at: usize) -> String {
    format!("p{}", at + 1)
}

fn contents(review: &Review) -> String {
    if review.rows.len() < 2 {
        return String::new();
    }
    let line = |(at, row): (usize, &ReviewRow)| {
        let (name, kind) = (text(&row.place().to_string()), heading(row.kind));
        format!("<li><a href=\"#{}\">{name}</a> <span>{kind}</span></li>\n", anchor(at))
    };
    let lines: String = review.rows.iter().enumerate().map(line).collect();
    format!("<nav aria-label=\"Patterns\">\n<ul>\n{lines}</ul>\n</nav>\n")
}

fn article(at: usize, row: &ReviewRow, pictures: Option<&Option<Pictures>>) -> String {
    let (place, title) = (text(&row.place().to_string()), text(row.title()));
    let head = if title.is_empty() { place.clone() } else { title };
    let mut out =
        format!("<article id=\"{}\">\n<h3>{head}</h3>\n<p class=\"path\">{place}</p>\n", anchor(at));
    if has_details(row.kind) {
        let said = circumstances(row);
        if !said.is_empty() {
            out += &format!("<p>{}</p>\n", text(&said.join("; ")));
        }
        out += &details(row);
    } else {
        out += &format!("<p>{}</p>\n", text(&gist(row)));
    }
    if let Some(Some(pictures)) = pictures {
        out += &figures(row, pictures);
    }
    out + "</article>\n"
}

fn details(row: &ReviewRow) -> String {
    let wrong: String = wrong(row).iter().map(|line| format!("<li>{}</li>\n", text(line))).collect();
    let mut out = if wrong.is_empty() { wrong } else { format!("<ul class=\"wrong\">\n{wrong}</ul>\n") };
    if row.looks_the_same() {
        out += "<p>It looks the same, but is tied with other knots.</p>\n";
    }
    if let Some(compared) = row.compared() {
        out += &format!("<pre>{}</pre>\n", escaped(changes(compared).trim()));
    }
    out
}

fn figures(row: &ReviewRow, pictures: &Pictures) -> String {
    let both = pictures.before.is_some() && pictures.after.is_some();
    let name = text(row.title());
    let figure = |svg: &Option<String>, when: &str| {
        let Some(svg) = svg else { return String::new() };
        let alt = if both { format!("{name}, {when}; what is different is ringed") } else { name.clone() };
        let caption = if both { format!("<figcaption>{when}</figcaption>") } else { String::new() };
        format!("<figure>{caption}<img src=\"{}\" alt=\"{alt}\"></figure>\n", picture(svg))
    };
    let figures = figure(&pictures.before, "before") + &figure(&pictures.after, "after");
    format!("<div class=\"pictures\">\n{figures}</div>\n")
}

fn causes(review: &Review) -> String {
    if review.causes.is_empty() {
        return String::new();
    }
    let lines: String = review.causes.iter().map(|of| format!("<li>{}</li>\n", text(&cause(of)))).collect();
    format!("<section>\n<h2>Libraries and settings</h2>\n<ul>\n{lines}</ul>\n</section>\n")
}

/// Text of a pattern, on one line.
fn text(text: &str) -> String {
    escaped(&on_one_line(text))
}

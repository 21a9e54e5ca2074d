//! One build as one file: its engine sheet, card, procedures, complaints and drawings, each sheet a section, with
//! anchors in the place of files and the style sheet inside.
//!
//! It is made from the sheets of the handbook as they are, so that it says what they say. Only tags of our own
//! templates are touched, never text. A link that leaves the build is left as its words.

use std::collections::BTreeSet;
use std::fmt::Write as _;

use super::assets;
use crate::emit::Tree;
use crate::emit::drawing;

/// What every such file begins with; by this it is known for one that Baybook wrote, and may be written anew.
pub const BEGINS: &str = "<!DOCTYPE html>\n<html lang=\"en-GB\">\n<head>\n<meta charset=\"utf-8\">\n\
     <meta name=\"generator\" content=\"Baybook\">\n";

/// The file of a build; none where the tree holds no such build.
pub fn single(tree: &Tree, build: &str) -> Option<String> {
    let folder = format!("builds/{build}/");
    let page = |stem: &str| {
        let bytes = tree.get(&format!("{folder}{stem}.html"))?;
        String::from_utf8(bytes.clone()).ok()
    };
    let engine = page("engine")?;
    let written = tree.keys().filter_map(|path| path.strip_prefix(&folder)?.strip_suffix(".html"));
    let stems: BTreeSet<&str> = written.collect();
    let ends = ["engine", "card"].into_iter().filter(|stem| stems.contains(stem));
    let between = stems.iter().copied().filter(|stem| !["engine", "card", "drawings"].contains(stem));
    let order: Vec<&str> = ends.chain(between).chain(stems.get("drawings").copied()).collect();
    let (mut doors, mut sheets) = (String::new(), String::new());
    for stem in &order {
        let text = page(stem)?;
        let title = between_marks(&text, "<title>", "</title>")?;
        let _ = write!(doors, "<li><a href=\"#{stem}\">{title}</a></li>");
        let sheet = without_data(between_marks(&text, "<main", "</main>")?);
        let place = Place { stem, stems: &stems, folder: &folder };
        let sheet = place.anchored(&format!("<section{sheet}</section>"));
        let _ = writeln!(sheets, "<div class=\"one\" id=\"{stem}\">{sheet}</div>");
    }
    let shared = drawing::shared();
    let shared = shared.as_str();
    let colophon = between_marks(&engine, "<p class=\"colophon\">", "</p>")?;
    let title = between_marks(&engine, "<title>", "</title>")?;
    let style = assets::single_style();
    Some(format!(
        "{BEGINS}<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; style-src '{hash}'; font-src data:; base-uri 'none'; form-action 'none'\">\n\
         <meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n<meta name=\"color-scheme\" content=\"light dark\">\n\
         <title>{title}</title>\n<style>{style}</style>\n</head>\n<body>\n{shared}\n\
         <header class=\"bench\"><nav class=\"indexes-of\" aria-label=\"Sheets in this file\"><ul class=\"indexes\">{doors}</ul></nav></header>\n\
         <main>\n{sheets}</main>\n<footer class=\"foot\"><p class=\"colophon\">{colophon}</p></footer>\n</body>\n</html>\n",
        hash = style.hash,
        style = style.text,
    ))
}

/// A sheet without its data for programs: the one file is for reading, and holds no script of any kind.
fn without_data(sheet: &str) -> String {
    let mut done = String::with_capacity(sheet.len());
    let mut rest = sheet;
    while let Some((before, data)) = rest.split_once("<script type=\"application/ld+json\">") {
        done.push_str(before);
        rest = data.split_once("</script>").map_or("", |(_, after)| after);
    }
    done + rest
}

/// What stands between two marks, at their first place.
fn between_marks<'a>(text: &'a str, from: &str, to: &str) -> Option<&'a str> {
    let (_, rest) = text.split_once(from)?;
    rest.split_once(to).map(|(inside, _)| inside)
}

/// Where a sheet stands, and which others stand in the same file.
struct Place<'a> {
    stem: &'a str,
    stems: &'a BTreeSet<&'a str>,
    folder: &'a str,
}

impl Place<'_> {
    /// The sheet with its ids and links made its own.
    fn anchored(&self, sheet: &str) -> String {
        let mut done = String::with_capacity(sheet.len());
        let mut rest = sheet;
        while let Some((text, tag)) = rest.split_once('<') {
            done.push_str(text);
            done.push('<');
            let (inside, after) = tag.split_once('>').unwrap_or((tag, ""));
            self.tag(inside, &mut done);
            done.push('>');
            rest = after;
        }
        done + rest
    }

    /// One tag; what the page's shared drawing holds is referred to as it is.
    fn tag(&self, inside: &str, done: &mut String) {
        if inside.starts_with("use ") || inside.starts_with("path ") {
            return done.push_str(inside);
        }
        let mut rest = inside;
        while let Some((before, value)) = rest.split_once("=\"") {
            let (value, after) = value.split_once('"').unwrap_or((value, ""));
            let (kept, name) = before.rsplit_once(' ').unwrap_or(("", before));
            done.push_str(kept);
            let written = match name {
                "id" | "aria-labelledby" => Some(format!("{}-{value}", self.stem)),
                "href" => self.link(value),
                "data-drawings" => None,
                _ => Some(value.to_owned()),
            };
            if let Some(written) = written {
                let _ = write!(done, " {name}=\"{written}\"");
            }
            rest = after;
        }
        done.push_str(rest);
    }

    /// Where a link leads inside the file; none where it leaves it.
    fn link(&self, href: &str) -> Option<String> {
        let (file, fragment) = href.split_once('#').map_or((href, None), |(file, id)| (file, Some(id)));
        let file =
            file.strip_prefix("../../").and_then(|path| path.strip_prefix(self.folder)).unwrap_or(file);
        let stem = if file.is_empty() { self.stem } else { file.strip_suffix(".html")? };
        let known = self.stems.contains(stem);
        known.then(|| fragment.map_or_else(|| format!("#{stem}"), |id| format!("#{stem}-{id}")))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ids_and_links_are_made_the_sheets_own_and_text_is_left() {
        let stems: BTreeSet<&str> = ["engine", "valve-lash"].into();
        let place = Place { stem: "engine", stems: &stems, folder: "builds/e/" };
        let sheet = r##"<p id="a">id="x" <a href="#a">up</a> <a class="door" href="valve-lash.html#step-1">on</a> <a href="../../builds/e/engine.html#a">same</a> <a href="../../sources/m.html">out</a><use href="#d-window"/></p>"##;
        let done = place.anchored(sheet);
        let wanted = r##"<p id="engine-a">id="x" <a href="#engine-a">up</a> <a class="door" href="#valve-lash-step-1">on</a> <a href="#engine-a">same</a> <a>out</a><use href="#d-window"/></p>"##;
        assert_eq!(done, wanted);
    }
}

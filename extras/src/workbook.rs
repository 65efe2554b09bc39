//! A workbook: sheets of texts and numbers. No cell holds a formula: each number is a result of the plan, whose
//! working the plan shows, and a formula here would be another sum than the one that ran.

use serde::Deserialize;
use std::io::{Cursor, Write};
use zip::result::ZipResult;
use zip::write::SimpleFileOptions;
use zip::{CompressionMethod, ZipWriter};

/// What the page hands over.
#[derive(Deserialize)]
pub struct Given {
    /// The day it was made, as 2026-11-29.
    pub day: String,
    /// The title of the workbook.
    pub title: String,
    /// Its sheets, in order.
    pub sheets: Vec<Sheet>,
}

/// One sheet.
#[derive(Deserialize)]
pub struct Sheet {
    /// What its tab is to say.
    pub name: String,
    /// The widths of its columns, in letters.
    pub widths: Vec<f64>,
    /// Its rows.
    pub rows: Vec<Row>,
}

/// One row.
#[derive(Deserialize)]
pub struct Row {
    /// Whether it is a heading.
    #[serde(default)]
    pub head: bool,
    /// Its cells, from the first column on; 26 at most.
    pub cells: Vec<Cell>,
}

/// What a cell holds.
#[derive(Deserialize)]
#[serde(untagged)]
pub enum Cell {
    /// Nothing.
    Empty,
    /// A number.
    Number(f64),
    /// A text, which is never taken for a formula.
    Text(String),
}

/// The longest name of a tab, in characters of UTF-16. From memory: programs for workbooks take no more.
const LONGEST_NAME: usize = 31;

/// The bytes of the workbook, or `None` if `json` is not a [`Given`] or cannot be written.
pub fn of(json: &str) -> Option<Vec<u8>> {
    let given: Given = serde_json::from_str(json).ok()?;
    let is_day = given.day.len() == 10 && given.day.chars().all(|c| c.is_ascii_digit() || c == '-');
    if is_day { written(&given).ok() } else { None }
}

const HEAD: &str = "<?xml version=\"1.0\" encoding=\"UTF-8\" standalone=\"yes\"?>\n";
const MAIN: &str = "http://schemas.openxmlformats.org/spreadsheetml/2006/main";
const RELATED: &str = "http://schemas.openxmlformats.org/officeDocument/2006/relationships";
const PACKAGE: &str = "http://schemas.openxmlformats.org/package/2006";
const SORT: &str = "application/vnd.openxmlformats-officedocument.spreadsheetml";

/// How cells look: 0 as they are, 1 bold, 2 with lines that wrap.
const STYLES: &str = "<fonts count=\"2\"><font><sz val=\"11\"/><name val=\"Calibri\"/></font><font><b/><sz val=\"11\"/><name val=\"Calibri\"/></font></fonts>\
<fills count=\"2\"><fill><patternFill patternType=\"none\"/></fill><fill><patternFill patternType=\"gray125\"/></fill></fills>\
<borders count=\"1\"><border><left/><right/><top/><bottom/><diagonal/></border></borders>\
<cellStyleXfs count=\"1\"><xf numFmtId=\"0\" fontId=\"0\" fillId=\"0\" borderId=\"0\"/></cellStyleXfs>\
<cellXfs count=\"3\"><xf numFmtId=\"0\" fontId=\"0\" fillId=\"0\" borderId=\"0\" xfId=\"0\"/>\
<xf numFmtId=\"0\" fontId=\"1\" fillId=\"0\" borderId=\"0\" xfId=\"0\" applyFont=\"1\"/>\
<xf numFmtId=\"0\" fontId=\"0\" fillId=\"0\" borderId=\"0\" xfId=\"0\" applyAlignment=\"1\"><alignment wrapText=\"1\" vertical=\"top\"/></xf></cellXfs>\
<cellStyles count=\"1\"><cellStyle name=\"Normal\" xfId=\"0\" builtinId=\"0\"/></cellStyles>";

/// The parts of the package. Source: ISO/IEC 29500-1 (the parts) and 29500-2 (the package).
fn written(given: &Given) -> ZipResult<Vec<u8>> {
    let mut names: Vec<String> = Vec::new();
    for sheet in &given.sheets {
        let name = tab(&sheet.name, &names);
        names.push(name);
    }
    let each = |line: &dyn Fn(usize, &String) -> String| -> String {
        names.iter().enumerate().map(|(at, name)| line(at + 1, name)).collect()
    };
    let mut book = ZipWriter::new(Cursor::new(Vec::new()));
    let mut part = |name: &str, content: String| -> ZipResult<()> {
        book.start_file(name, SimpleFileOptions::default().compression_method(CompressionMethod::Deflated))?;
        book.write_all(HEAD.as_bytes())?;
        Ok(book.write_all(content.as_bytes())?)
    };
    let pages = each(&|at, _| {
        format!("<Override PartName=\"/xl/worksheets/sheet{at}.xml\" ContentType=\"{SORT}.worksheet+xml\"/>")
    });
    part(
        "[Content_Types].xml",
        format!(
            "<Types xmlns=\"{PACKAGE}/content-types\"><Default Extension=\"rels\" ContentType=\"application/vnd.openxmlformats-package.relationships+xml\"/><Default Extension=\"xml\" ContentType=\"application/xml\"/><Override PartName=\"/xl/workbook.xml\" ContentType=\"{SORT}.sheet.main+xml\"/><Override PartName=\"/xl/styles.xml\" ContentType=\"{SORT}.styles+xml\"/><Override PartName=\"/docProps/core.xml\" ContentType=\"application/vnd.openxmlformats-package.core-properties+xml\"/>{pages}</Types>"
        ),
    )?;
    part(
        "_rels/.rels",
        format!(
            "<Relationships xmlns=\"{PACKAGE}/relationships\"><Relationship Id=\"rId1\" Type=\"{RELATED}/officeDocument\" Target=\"xl/workbook.xml\"/><Relationship Id=\"rId2\" Type=\"{PACKAGE}/relationships/metadata/core-properties\" Target=\"docProps/core.xml\"/></Relationships>"
        ),
    )?;
    part(
        "docProps/core.xml",
        format!(
            "<cp:coreProperties xmlns:cp=\"{PACKAGE}/metadata/core-properties\" xmlns:dc=\"http://purl.org/dc/elements/1.1/\" xmlns:dcterms=\"http://purl.org/dc/terms/\" xmlns:xsi=\"http://www.w3.org/2001/XMLSchema-instance\"><dc:title>{}</dc:title><dcterms:created xsi:type=\"dcterms:W3CDTF\">{}T00:00:00Z</dcterms:created></cp:coreProperties>",
            escaped(&given.title),
            given.day
        ),
    )?;
    let pages =
        each(&|at, name| format!("<sheet name=\"{}\" sheetId=\"{at}\" r:id=\"rId{at}\"/>", escaped(name)));
    part(
        "xl/workbook.xml",
        format!("<workbook xmlns=\"{MAIN}\" xmlns:r=\"{RELATED}\"><sheets>{pages}</sheets></workbook>"),
    )?;
    let pages = each(&|at, _| {
        format!(
            "<Relationship Id=\"rId{at}\" Type=\"{RELATED}/worksheet\" Target=\"worksheets/sheet{at}.xml\"/>"
        )
    });
    let styles = names.len() + 1;
    part(
        "xl/_rels/workbook.xml.rels",
        format!(
            "<Relationships xmlns=\"{PACKAGE}/relationships\">{pages}<Relationship Id=\"rId{styles}\" Type=\"{RELATED}/styles\" Target=\"styles.xml\"/></Relationships>"
        ),
    )?;
    part("xl/styles.xml", format!("<styleSheet xmlns=\"{MAIN}\">{STYLES}</styleSheet>"))?;
    for (at, sheet) in given.sheets.iter().enumerate() {
        part(&format!("xl/worksheets/sheet{}.xml", at + 1), page(sheet))?;
    }
    Ok(book.finish()?.into_inner())
}

fn page(sheet: &Sheet) -> String {
    let mut text = format!("<worksheet xmlns=\"{MAIN}\">");
    if sheet.rows.first().is_some_and(|row| row.head) {
        text += "<sheetViews><sheetView workbookViewId=\"0\"><pane ySplit=\"1\" topLeftCell=\"A2\" activePane=\"bottomLeft\" state=\"frozen\"/></sheetView></sheetViews>";
    }
    if !sheet.widths.is_empty() {
        text += "<cols>";
        for (at, width) in (1..).zip(&sheet.widths) {
            text += &format!("<col min=\"{at}\" max=\"{at}\" width=\"{width}\" customWidth=\"1\"/>");
        }
        text += "</cols>";
    }
    text += "<sheetData>";
    for (at, row) in (1..).zip(&sheet.rows) {
        text += &format!("<row r=\"{at}\">");
        for (column, cell) in ('A'..='Z').zip(&row.cells) {
            match cell {
                Cell::Number(number) if number.is_finite() => {
                    text += &format!("<c r=\"{column}{at}\"><v>{number:?}</v></c>");
                }
                Cell::Text(words) if !words.is_empty() => {
                    let style = if row.head { 1 } else { 2 };
                    let words = escaped(words);
                    text += &format!(
                        "<c r=\"{column}{at}\" s=\"{style}\" t=\"inlineStr\"><is><t xml:space=\"preserve\">{words}</t></is></c>"
                    );
                }
                Cell::Empty | Cell::Number(_) | Cell::Text(_) => (),
            }
        }
        text += "</row>";
    }
    text + "</sheetData></worksheet>"
}

/// A text between tags or in an attribute. What no XML may hold is left out, and what programs for workbooks would
/// take for a sign by its number (`_x0041_`) stays as it is written.
fn escaped(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for c in text.chars() {
        match c {
            '&' => out += "&amp;",
            '<' => out += "&lt;",
            '>' => out += "&gt;",
            '"' => out += "&quot;",
            c if (c as u32) < 0x20 && !"\t\n\r".contains(c) || c == '\u{fffe}' || c == '\u{ffff}' => (),
            c => out.push(c),
        }
    }
    out.replace("_x", "_x005F_x")
}

/// A name that a tab may have and no other one has: not too long, without signs that are not allowed there,
/// and told apart without regard to capitals.
fn tab(wanted: &str, taken: &[String]) -> String {
    let kept: String =
        wanted.chars().map(|c| if "[]:*?/\\'".contains(c) || c.is_control() { ' ' } else { c }).collect();
    let kept = if kept.trim().is_empty() { "Sheet" } else { kept.trim() };
    // The page's rule against tables of all alphabets is not for what is loaded when it is wanted.
    #[allow(clippy::disallowed_methods)]
    let free = |name: &String| taken.iter().all(|known| known.to_lowercase() != name.to_lowercase());
    let numbered = (2..).map(|k| {
        let end = format!(" {k}");
        cut(kept, LONGEST_NAME - end.len()) + &end
    });
    std::iter::once(cut(kept, LONGEST_NAME)).chain(numbered).find(free).unwrap_or_default()
}

/// The first `most` characters of UTF-16 of a text.
fn cut(text: &str, most: usize) -> String {
    let mut length = 0;
    let fits = |c: &char| {
        length += c.len_utf16();
        length <= most
    };
    let kept: String = text.chars().take_while(fits).collect();
    kept.trim().into()
}

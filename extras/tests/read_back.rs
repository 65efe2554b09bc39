//! What is made here is read by code of other people.

use bathbook_extras::{code, workbook};
use calamine::{Data, Reader, Xlsx};
use std::io::Cursor;

fn read(json: &str) -> Xlsx<Cursor<Vec<u8>>> {
    Xlsx::new(Cursor::new(workbook::of(json).expect("a workbook"))).expect("a workbook that is read")
}

#[test]
fn numbers_are_numbers_and_texts_are_texts_and_nothing_is_a_formula() {
    let mut book = read(
        r#"{"day":"2026-11-29","title":"Line","sheets":[{"name":"Copper bath","widths":[20,8],"rows":[
            {"head":true,"cells":["Quantity","Value"]},
            {"cells":["Volume",200.25]},
            {"cells":["=1+1","-3"]},
            {"cells":[null,-1e-9]}
        ]}]}"#,
    );
    let page = book.worksheet_range("Copper bath").expect("its page");
    let text = |text: &str| Some(Data::String(text.into()));
    assert_eq!(page.get_value((0, 1)).cloned(), text("Value"));
    assert_eq!(page.get_value((1, 1)), Some(&Data::Float(200.25)));
    assert_eq!(page.get_value((2, 0)).cloned(), text("=1+1"));
    assert_eq!(page.get_value((2, 1)).cloned(), text("-3"));
    assert_eq!(page.get_value((3, 1)), Some(&Data::Float(-1e-9)));
    let formulas = book.worksheet_formula("Copper bath").expect("its page");
    assert!(formulas.used_cells().all(|(_, _, formula)| formula.is_empty()));
}

#[test]
fn tabs_have_names_that_are_allowed_and_differ() {
    let long = "Rinse behind the copper bath, second of three";
    let names = ["a/b", "", "A b", long, long, "a b"];
    let sheets: Vec<String> =
        names.iter().map(|name| format!(r#"{{"name":"{name}","widths":[],"rows":[]}}"#)).collect();
    let book = read(&format!(r#"{{"day":"2026-11-29","title":"","sheets":[{}]}}"#, sheets.join(",")));
    assert_eq!(
        book.sheet_names(),
        [
            "a b",
            "Sheet",
            "A b 2",
            "Rinse behind the copper bath, s",
            "Rinse behind the copper bath, 2",
            "a b 3"
        ]
    );
}

#[test]
fn one_input_makes_the_same_bytes_and_what_is_none_makes_nothing() {
    let json = r#"{"day":"2026-11-29","title":"Line","sheets":[{"name":"A","widths":[9],"rows":[]}]}"#;
    assert_eq!(workbook::of(json), workbook::of(json));
    for none in ["", "null", r#"{"day":"no day","title":"","sheets":[]}"#] {
        assert_eq!(workbook::of(none), None, "{none}");
    }
}

/// Paints the squares of a code as a picture of so many points each.
fn painted(svg: &str, points: usize) -> (usize, Vec<u8>) {
    let size: usize =
        svg.split("viewBox=\"0 0 ").nth(1).and_then(|it| it.split(' ').next()).unwrap().parse().unwrap();
    let mut picture = vec![255; size * size * points * points];
    let path = svg.split(" d=\"").nth(2).expect("the squares").split('"').next().unwrap();
    for run in path.split('M').skip(1) {
        let numbers: Vec<usize> = run.split([' ', 'h', 'v']).take(3).map(|it| it.parse().unwrap()).collect();
        for y in numbers[1] * points..(numbers[1] + 1) * points {
            for x in numbers[0] * points..(numbers[0] + numbers[2]) * points {
                picture[y * size * points + x] = 0;
            }
        }
    }
    (size * points, picture)
}

#[test]
fn a_code_is_read_as_the_text_that_it_was_made_of() {
    let long = format!("https://example.org/#/link/1.0123abcd.{}", "Aa_-9".repeat(400));
    for text in ["https://example.org/some/folder/#/link/1.024d0127.3.YWJj", long.as_str()] {
        let (size, picture) = painted(&code::svg(text).expect("a code"), 3);
        let mut seen = rqrr::PreparedImage::prepare_from_greyscale(size, size, |x, y| picture[y * size + x]);
        let grids = seen.detect_grids();
        assert_eq!(grids.len(), 1);
        assert_eq!(grids[0].decode().expect("a text").1, text);
    }
}

#[test]
fn what_does_not_fit_is_refused() {
    assert!(code::svg(&"a".repeat(code::LONGEST)).is_some());
    assert!(code::svg(&"a".repeat(code::LONGEST + 1)).is_none());
}

//! The bridge between the page and its program, written shorter.

use std::collections::HashMap;

const FIGURES: usize = 16;

/// wasm-bindgen tells the names of its bridge apart by 16 hexadecimal figures, which nothing compresses and
/// which stand in both files: 3 kB of the page. Here they are numbered instead, in the order of the script, and
/// are as long as before, so that nothing in the program moves.
pub fn number_names(script: &mut [u8], program: &mut [u8]) {
    let mut numbers = HashMap::new();
    for start in places(script) {
        let number = format!("{:0FIGURES$}", numbers.len()).into_bytes();
        numbers.entry(script[start..start + FIGURES].to_vec()).or_insert(number);
    }
    for file in [script, program] {
        for start in places(file) {
            let figures = &mut file[start..start + FIGURES];
            if let Some(number) = numbers.get(figures) {
                figures.copy_from_slice(number);
            }
        }
    }
}

/// Where 16 such figures follow a low line.
fn places(file: &[u8]) -> Vec<usize> {
    let is_figure = |byte: &u8| matches!(byte, b'0'..=b'9' | b'a'..=b'f');
    let is_name = |(_, found): &(usize, &[u8])| found[0] == b'_' && found[1..].iter().all(is_figure);
    file.windows(1 + FIGURES).enumerate().filter(is_name).map(|(at, _)| at + 1).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn both_files_have_the_same_numbers_and_their_length() {
        let mut script =
            b"__wbg_get_00ff00ff00ff00ff: __wbg_set_123456789abcdef0, __wbg_get_00ff00ff00ff00ff".to_vec();
        let mut program = b"\x1a__wbg_set_123456789abcdef0\0other_aaaaaaaaaaaaaaaa".to_vec();
        number_names(&mut script, &mut program);
        let get = "__wbg_get_0000000000000000";
        assert_eq!(String::from_utf8_lossy(&script), format!("{get}: __wbg_set_0000000000000001, {get}"));
        assert_eq!(program, b"\x1a__wbg_set_0000000000000001\0other_aaaaaaaaaaaaaaaa");
    }
}

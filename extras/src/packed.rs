//! A plan's text packed small enough for a link: DEFLATE (RFC 1951) that may look back into words which plans are
//! made of (a preset dictionary, as in RFC 1950, section 2.2), so that names of sheets and fields cost a few bits.

use miniz_oxide::deflate::core::create_comp_flags_from_zip_params as flags;
use miniz_oxide::deflate::core::{CompressorOxide, TDEFLFlush, TDEFLStatus, compress_to_output};
use miniz_oxide::inflate::TINFLStatus;
use miniz_oxide::inflate::core::inflate_flags::TINFL_FLAG_USING_NON_WRAPPING_OUTPUT_BUF;
use miniz_oxide::inflate::core::{DecompressorOxide, decompress};

/// What a plan's text is likely to hold: the JSON of all that is declared. **Never changed**: every link of
/// version 2 leads into it, to the byte. Other words are another version.
pub const WORDS: &[u8] = include_bytes!("words-of-links-2.txt");

/// The text, packed.
pub fn pack(text: &[u8]) -> Option<Vec<u8>> {
    // A negative window means no header; 10 looks longest for what repeats.
    let mut packer = CompressorOxide::new(flags(10, -15, 0));
    let mut run = |bytes: &[u8], flush, wanted| {
        let mut out = Vec::new();
        let (status, taken) = compress_to_output(&mut packer, bytes, flush, |piece| {
            out.extend_from_slice(piece);
            true
        });
        (status == wanted && taken == bytes.len()).then_some(out)
    };
    // The packer remembers the words; what it made of them is not carried, as the other end has them too. After
    // a flush the rest begins with a byte of its own.
    run(WORDS, TDEFLFlush::Sync, TDEFLStatus::Okay)?;
    run(text, TDEFLFlush::Finish, TDEFLStatus::Done)
}

/// The text again; none where it is damaged, or where more than `most` bytes would come out.
pub fn unpack(packed: &[u8], most: usize) -> Option<Vec<u8>> {
    let mut out = WORDS.to_vec();
    out.resize(WORDS.len().checked_add(most)?, 0);
    let mut unpacker = Box::<DecompressorOxide>::default();
    let (status, read, made) =
        decompress(&mut unpacker, packed, &mut out, WORDS.len(), TINFL_FLAG_USING_NON_WRAPPING_OUTPUT_BUF);
    let is_whole = status == TINFLStatus::Done && read == packed.len();
    is_whole.then(|| out[WORDS.len()..WORDS.len() + made].to_vec())
}

#[cfg(test)]
mod tests {
    use super::*;

    const PLAN: &str = r#"{"format":1,"name":"Line","next":2,"places":[{"id":0,"subject":"site","name":"Site","sheets":{"balance":{},"site":{"entries":{"hours":"24 h"}}}}]}"#;

    #[test]
    fn what_is_packed_comes_out_again() {
        for text in [PLAN, "", "{}", &PLAN.repeat(200), &"\u{202e}😀".repeat(999)] {
            let packed = pack(text.as_bytes()).unwrap();
            assert_eq!(unpack(&packed, text.len()).as_deref(), Some(text.as_bytes()));
        }
    }

    #[test]
    fn a_plans_own_words_cost_little() {
        // By zlib 1.2.13 without the words: 112 bytes; with them: 23, in one block of fixed codes.
        assert!(pack(PLAN.as_bytes()).unwrap().len() < 45);
    }

    #[test]
    fn not_a_byte_more_than_is_allowed_comes_out() {
        let text = vec![b' '; 4_000_000];
        let packed = pack(&text).unwrap();
        assert!(packed.len() < 5000);
        assert_eq!(unpack(&packed, text.len() - 1), None);
        assert_eq!(unpack(&packed, 1000), None);
    }

    #[test]
    fn what_is_cut_or_has_something_behind_it_is_damaged() {
        let packed = pack(PLAN.as_bytes()).unwrap();
        for end in 0..packed.len() {
            assert_eq!(unpack(&packed[..end], 100_000), None, "cut at {end}");
        }
        assert_eq!(unpack(&[&packed[..], b"x"].concat(), 100_000), None);
    }

    /// Whoever changes them breaks every link that is out.
    #[test]
    fn the_words_are_those_of_the_first_day() {
        assert_eq!((WORDS.len(), adler(WORDS)), (28_390, 0x249b_af33));
    }

    /// RFC 1950, section 8.2.
    fn adler(bytes: &[u8]) -> u32 {
        let sum = |(a, b): (u32, u32), byte: &u8| {
            ((a + u32::from(*byte)) % 65_521, (b + (a + u32::from(*byte)) % 65_521) % 65_521)
        };
        let (a, b) = bytes.iter().fold((1, 0), sum);
        b << 16 | a
    }
}

use proptest::prelude::*;
use rand::rngs::{ChaCha8Rng, ChaCha12Rng, ChaCha20Rng};

use super::*;

fn first_bytes<const N: usize>(rng: &mut impl Rng) -> [u8; N] {
    let mut bytes = [0; N];
    rng.fill_bytes(&mut bytes);
    bytes
}

fn hex(bytes: &[u8]) -> String {
    use fmt::Write;
    bytes.iter().fold(String::new(), |mut text, byte| {
        write!(text, "{byte:02x}").expect("writing to a string cannot fail");
        text
    })
}

/// Block 0 of `ChaCha12` under a zero key and nonce begins 9bf49a6a 0755f953 811fce12 5f2683d5: draft-strombergson-
/// chacha-test-vectors-01, TC1, 12 rounds, 256-bit key [memory]; computed apart from this crate as well [derived].
#[test]
fn stream_0_of_the_zero_seed_is_the_published_chacha12_block() {
    let mut rng = Seed::from_bytes([0; 32]).stream(0);
    assert_eq!(hex(&first_bytes::<16>(&mut rng)), "9bf49a6a0755f953811fce125f2683d5");
}

/// The same implementation with 20 rounds: RFC 8439 A.1 test vector 1 [read]; it shows that the words come out in
/// the order of the standard.
#[test]
fn the_generators_family_gives_the_words_of_rfc_8439() {
    let mut rng = ChaCha20Rng::from_seed([0; 32]);
    let words = [rng.next_u32(), rng.next_u32(), rng.next_u32(), rng.next_u32()];
    assert_eq!(words, [0xade0_b876, 0x903d_f1a0, 0xe56a_5d40, 0x28bd_8653]);
}

/// 8 rounds: the value published with the `rand_chacha` crate's `seed_from_u64(42)` [read]; 12 rounds: [derived].
#[test]
fn seeds_expanded_from_42_give_the_published_words() {
    assert_eq!(ChaCha8Rng::seed_from_u64(42).next_u64(), 12_578_764_544_318_200_737);
    let mut rng = ChaCha12Rng::seed_from_u64(42);
    assert_eq!([rng.next_u64(), rng.next_u64()], [9_713_269_763_989_775_522, 10_011_513_049_433_592_189]);
}

#[test]
fn a_text_that_is_not_64_hex_digits_is_refused_with_the_reason() {
    assert_eq!(Seed::from_hex(""), Err(SeedError::Length { found: 0 }));
    assert_eq!(Seed::from_hex(&"a".repeat(63)), Err(SeedError::Length { found: 63 }));
    assert_eq!(Seed::from_hex(&"a".repeat(65)), Err(SeedError::Length { found: 65 }));
    let odd = format!("{}g{}", "0".repeat(10), "0".repeat(53));
    assert_eq!(Seed::from_hex(&odd), Err(SeedError::Digit { place: 11, found: 'g' }));
    let wide = format!("{}é", "0".repeat(63));
    assert_eq!(Seed::from_hex(&wide), Err(SeedError::Digit { place: 64, found: 'é' }));
    let signed = format!("+{}", "0".repeat(63));
    assert_eq!(Seed::from_hex(&signed), Err(SeedError::Digit { place: 1, found: '+' }));
    assert_eq!(
        Seed::from_hex("12").unwrap_err().to_string(),
        "the seed has 2 characters; a seed has exactly 64 hexadecimal digits"
    );
}

#[test]
fn session_i_has_the_first_32_bytes_of_stream_2_to_the_63_plus_i() {
    let seed = Seed::from_bytes([7; 32]);
    for i in [1, 2, 900] {
        let expected: [u8; 32] = first_bytes(&mut seed.stream((1 << 63) + i));
        assert_eq!(seed.of_session(i).bytes(), expected);
    }
    assert_ne!(seed.of_session(1), seed.of_session(2));
}

proptest! {
    #[test]
    fn a_seed_reads_what_it_writes(bytes: [u8; 32]) {
        let seed = Seed::from_bytes(bytes);
        prop_assert_eq!(Seed::from_hex(&seed.to_string()), Ok(seed));
        prop_assert_eq!(Seed::from_hex(&seed.to_string().to_uppercase()), Ok(seed));
    }

    #[test]
    fn two_purposes_never_share_a_stream(set in 1u8.., other in 1u8.., pause in 1u16.., session in 1u64..1 << 40) {
        let seed = Seed::from_bytes([0; 32]);
        let mut numbers = [
            seed.gaps(set), seed.blanks(set), seed.order(set), seed.strengths(set), seed.balls(set),
            seed.redraw(set), seed.parts(set), seed.path(set), seed.drills(), seed.sound_check(), seed.course(),
            seed.pause(set, pause), seed.stream(SESSIONS + session),
        ].map(|rng| rng.get_stream());
        numbers.sort_unstable();
        prop_assert!(numbers.windows(2).all(|pair| pair[0] < pair[1]));
        prop_assert_eq!(seed.gaps(set) == seed.gaps(other), set == other);
        prop_assert_eq!(seed.pause(set, pause) == seed.pause(other, pause), set == other);
    }
}

/// A stream that was released keeps its number, and a new purpose gets a new one, or it would shift what others draw.
#[test]
fn the_numbers_of_the_streams_are_those_that_were_released() {
    let source = include_str!("../seed.rs");
    let number = |line: &str| {
        let (name, value) = line.strip_prefix("const ")?.split_once(": u64 = ")?;
        Some(format!("{name} {}", value.strip_suffix(';')?))
    };
    let streams: Vec<String> = source.lines().filter_map(number).collect();
    assert_eq!(
        streams,
        [
            "PURPOSES 16",
            "GAPS 0",
            "BLANKS 1",
            "ORDER 2",
            "STRENGTHS 3",
            "BALLS 4",
            "REDRAW 5",
            "DRILLS 6",
            "SOUND_CHECK 7",
            "PARTS 8",
            "PATH 9",
            "COURSE 10",
            "COMPARISON 1 << 61",
            "PAUSES 1 << 62",
            "SESSIONS 1 << 63",
        ]
    );
    // What is drawn for each purpose of set 3 begins at its own number.
    let seed = Seed::from_bytes([7; 32]);
    let first = |mut rng: ChaCha12Rng| rng.next_u64();
    let of_set = [
        (seed.gaps(3), 48),
        (seed.blanks(3), 49),
        (seed.order(3), 50),
        (seed.strengths(3), 51),
        (seed.balls(3), 52),
        (seed.redraw(3), 53),
        (seed.drills(), 6),
        (seed.sound_check(), 7),
        (seed.parts(3), 56),
        (seed.path(3), 57),
        (seed.course(), 10),
        (seed.pause(3, 2), (1 << 62) + (3 << 16) + 2),
    ];
    for (rng, number) in of_set {
        assert_eq!(first(rng), first(seed.stream(number)), "stream {number}");
    }
    let [table, library] = seed.comparison(5);
    assert_eq!([first(table), first(library)], [10, 11].map(|at| first(seed.stream((1 << 61) + at))));
}

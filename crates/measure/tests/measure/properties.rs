//! Properties that hold for any size and any text.

use measure::show::{self, Rounding};
use measure::{Dimension, Fraction, House, Pitch, Size, entered, entered_with_unit, fraction};
use proptest::prelude::*;

/// Sizes a shop writes: 128ths, ten-thousandths of an inch and micrometres, of either sign, up to 1,000 in or 25 m.
fn writable() -> impl Strategy<Value = Size> {
    prop_oneof![
        (-128_000_i64..128_000).prop_map(|n| Size::from_ticks(n * 79_375)),
        (-10_000_000_i64..10_000_000).prop_map(|n| Size::from_ticks(n * 1_016)),
        (-25_000_000_i64..25_000_000).prop_map(|n| Size::from_ticks(n * 400)),
    ]
}

fn houses() -> impl Strategy<Value = House> {
    prop_oneof![Just(House::Inch), Just(House::Metric)]
}

proptest! {
    /// What the printer prints, the parser reads back as the same size.
    #[test]
    fn printed_sizes_are_read_back(size in writable(), house in houses()) {
        prop_assert_eq!(Size::parse(&show::size(size, house)), Ok(size));
    }

    /// And so for every tick there is, not only those a shop would write.
    #[test]
    fn any_tick_is_read_back(ticks: i64, house in houses()) {
        let size = Size::from_ticks(ticks);
        prop_assert_eq!(Size::parse(&show::size(size, house)), Ok(size));
    }

    /// A fraction printed alone, and a decimal printed alone, are the size wherever they are printed as exact.
    #[test]
    fn fraction_and_decimal_are_read_back(n in -128_000_i64..128_000) {
        let size = Size::from_ticks(n * 79_375);
        let fraction = show::fraction_in(size).unwrap();
        prop_assert_eq!(Size::parse_in(&fraction, House::Inch), Ok(size));
        prop_assert_eq!(Size::parse_in(&show::decimal_in(size), House::Inch), Ok(size));
    }

    /// One size entered in inches and in millimetres is one number of ticks and one SI value, to the last bit.
    #[test]
    fn inch_and_metric_entry_agree(tenths in -10_000_000_i64..10_000_000) {
        let size = Size::from_ticks(tenths * 1_016);
        let inch = entered(&show::decimal_in(size), Dimension::Length, House::Inch).unwrap();
        let metric = entered(&show::decimal_mm(size), Dimension::Length, House::Metric).unwrap();
        prop_assert_eq!(inch.size(), Ok(size));
        prop_assert_eq!(metric.size(), Ok(size));
        prop_assert_eq!(inch.si.to_bits(), metric.si.to_bits());
    }

    /// Sizes keep the order of the numbers they came from.
    #[test]
    fn order_is_kept(a in writable(), b in writable()) {
        prop_assert_eq!(a.cmp(&b), a.inches().cmp(&b.inches()));
        prop_assert_eq!(a.cmp(&b), a.mm().cmp(&b.mm()));
    }

    /// A printed pitch is read back as the same pitch.
    #[test]
    fn printed_pitches_are_read_back(over in 1_i128..200, under in 1_i128..=8, house in houses()) {
        let pitch = Pitch::from_tpi(Fraction::new(over, under)).unwrap();
        let again = entered_with_unit(&show::pitch(pitch, house), Dimension::Pitch).unwrap();
        prop_assert_eq!(again.si.to_bits(), fraction::to_f64(pitch.inches() * Fraction::new(254, 10_000)).to_bits());
    }

    /// No text, however broken, makes the parser panic, and what is accepted gives a finite number.
    #[test]
    fn no_text_panics(text in "\\PC{0,60}", house in houses()) {
        for dimension in Dimension::ALL {
            if let Ok(value) = entered(&text, dimension, house) {
                prop_assert!(value.si.is_finite());
            }
        }
    }

    /// The same, with texts made of the pieces that values are made of, long numbers among them.
    #[test]
    fn no_near_miss_panics(
        pieces in proptest::collection::vec(
            prop_oneof![
                Just("1"), Just("0"), Just("999999999999999999"), Just("000000000000000001"), Just("/"), Just("."), Just("-"), Just(" "),
                Just("'"), Just("\""), Just("°"), Just("d"), Just("m"), Just("s"), Just("in"), Just("ft"), Just("mm"), Just(":"),
                Just("psi"), Just("F"), Just("TPI"), Just("%"), Just("½"), Just(" · "), Just(" ≈ "), Just("rad"), Just("m/s"),
            ],
            0..10,
        ),
        house in houses(),
    ) {
        let text: String = pieces.concat();
        for dimension in Dimension::ALL {
            match entered(&text, dimension, house) {
                Ok(value) => {
                    prop_assert!(value.si.is_finite(), "{} {:?}", text, value);
                    prop_assert_eq!(&value.text, &text);
                    // Asking for the size never panics either, whatever it answers.
                    let _ = value.size();
                }
                Err(error) => prop_assert!(!error.to_string().is_empty()),
            }
        }
    }

    /// A number shown rounded down, to the nearest and up stands in that order, within one last place.
    #[test]
    fn rounding_brackets_the_number(value in -1e6_f64..1e6, decimals in 0_u32..6) {
        let shown = |rounding| show::number(value, decimals, rounding).parse::<f64>().unwrap();
        let (down, nearest, up) = (shown(Rounding::Down), shown(Rounding::Nearest), shown(Rounding::Up));
        let dust = 1e-8;
        prop_assert!(down <= value + dust && value <= up + dust);
        prop_assert!(nearest == down || nearest == up);
        prop_assert!((nearest - value).abs() <= 0.5 * [1.0, 0.1, 0.01, 1e-3, 1e-4, 1e-5][decimals as usize] + dust);
    }

    /// The exact and the floating printer agree wherever the floating number is the exact one.
    #[test]
    fn the_two_printers_agree(n in -10_000_000_i128..10_000_000, places in 0_u32..8) {
        let x = Fraction::new(n, 1_024);
        for rounding in [Rounding::Nearest, Rounding::Up, Rounding::Down] {
            prop_assert_eq!(
                fraction::decimal(x, places, rounding),
                show::number(fraction::to_f64(x), places, rounding)
            );
        }
    }
}

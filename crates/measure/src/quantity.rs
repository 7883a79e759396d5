//! The shape shared by every plain quantity: a private SI value, one constructor and one reader a unit.

/// Declares a quantity held as `f64` in SI, with a constructor and a reader for each of its units.
macro_rules! quantity {
    (
        $(#[$meta:meta])*
        $name:ident { $( $make:ident, $read:ident, $factor:expr, $words:literal; )+ }
    ) => {
        $(#[$meta])*
        #[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
        pub struct $name(f64);

        impl $name {
            $(
                #[doc = concat!("From `value` in ", $words, ".")]
                pub const fn $make(value: f64) -> $name {
                    $name($factor.into_si(value))
                }

                #[doc = concat!("The value in ", $words, ".")]
                pub const fn $read(self) -> f64 {
                    $factor.out_of_si(self.0)
                }
            )+
        }
    };
}

pub(crate) use quantity;

//! Length inside a law: floating metres. What is measured or limited is a [`Size`](crate::Size) instead.

use crate::exact::{FOOT, INCH, MILLIMETRE, ONE};
use crate::quantity::quantity;

quantity! {
    /// A length for use inside a law, held in metres. It has no exactness to lose: compare sizes as
    /// [`Size`](crate::Size), never as `Length`.
    Length {
        m, to_m, ONE, "metres";
        mm, to_mm, MILLIMETRE, "millimetres";
        inches, to_inches, INCH, "inches";
        ft, to_ft, FOOT, "feet";
    }
}

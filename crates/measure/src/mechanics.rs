//! Force, torque, stress, area, mass and speed: the quantities a strength sheet is made of.

use crate::exact::*;
use crate::quantity::quantity;

quantity! {
    /// A force, held in newtons. A pound here is the pound-force, never the pound of mass.
    Force {
        newtons, to_newtons, ONE, "newtons";
        kilonewtons, to_kilonewtons, KILO, "kilonewtons";
        lbf, to_lbf, POUND_FORCE, "pounds-force";
    }
}

quantity! {
    /// A torque, held in newton-metres.
    Torque {
        newton_m, to_newton_m, ONE, "newton-metres";
        lbf_in, to_lbf_in, POUND_INCH, "pound-force inches";
        lbf_ft, to_lbf_ft, POUND_FOOT, "pound-force feet";
    }
}

quantity! {
    /// A stress, held in pascals. It is not a pressure and does not turn into one by itself.
    Stress {
        pascals, to_pascals, ONE, "pascals";
        psi, to_psi, PSI, "pounds-force a square inch";
        ksi, to_ksi, KSI, "thousands of pounds-force a square inch";
        mpa, to_mpa, MEGA, "megapascals (newtons a square millimetre)";
    }
}

quantity! {
    /// An area, held in square metres.
    Area {
        sq_m, to_sq_m, ONE, "square metres";
        sq_in, to_sq_in, SQUARE_INCH, "square inches";
        sq_ft, to_sq_ft, SQUARE_FOOT, "square feet";
        sq_mm, to_sq_mm, SQUARE_MILLIMETRE, "square millimetres";
    }
}

quantity! {
    /// A mass, held in kilograms. A pound here is the avoirdupois pound of mass.
    Mass {
        kg, to_kg, ONE, "kilograms";
        lb, to_lb, POUND, "avoirdupois pounds";
    }
}

quantity! {
    /// A speed, held in metres a second.
    Speed {
        m_per_s, to_m_per_s, ONE, "metres a second";
        m_per_min, to_m_per_min, METRE_PER_MINUTE, "metres a minute";
        ft_per_min, to_ft_per_min, FOOT_PER_MINUTE, "feet a minute";
        mph, to_mph, MILE_PER_HOUR, "miles an hour";
        km_per_h, to_km_per_h, KILOMETRE_PER_HOUR, "kilometres an hour";
    }
}

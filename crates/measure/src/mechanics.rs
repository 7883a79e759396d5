//! Force, torque, stress, area, mass and speed, which a strength sheet is made of, and what steam adds: flow, the
//! room a pound takes and the heat in it.

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

quantity! {
    /// A flow by weight, held in kilograms a second. A pound here is the pound of mass.
    Flow {
        kg_per_s, to_kg_per_s, ONE, "kilograms a second";
        kg_per_h, to_kg_per_h, KILOGRAM_PER_HOUR, "kilograms an hour";
        lb_per_h, to_lb_per_h, POUND_PER_HOUR, "pounds an hour";
        lb_per_min, to_lb_per_min, POUND_PER_MINUTE, "pounds a minute";
    }
}

quantity! {
    /// The room that one pound or kilogram takes, held in cubic metres a kilogram.
    SpecificVolume {
        cu_m_per_kg, to_cu_m_per_kg, ONE, "cubic metres a kilogram";
        cu_ft_per_lb, to_cu_ft_per_lb, CUBIC_FOOT_PER_POUND, "cubic feet a pound";
    }
}

quantity! {
    /// The heat in one pound or kilogram, above water at the triple point, or a difference of two such; held in
    /// joules a kilogram.
    Heat {
        j_per_kg, to_j_per_kg, ONE, "joules a kilogram";
        kj_per_kg, to_kj_per_kg, KILO, "kilojoules a kilogram";
        btu_per_lb, to_btu_per_lb, BTU_PER_POUND, "British thermal units a pound";
    }
}

//! Dimensions and kinds of quantity.

use super::{UNITS, Unit};

/// Exponents of mass, length, time, temperature, amount and current, **in sixths**, so that
/// square and cube roots stay exact (Manning's equation needs both). Three axes more keep apart what
/// SI does not: mass *of metal* from mass of anything, a point on a scale (20 °C) from a
/// difference (20 K), and money.
#[derive(Clone, Copy, PartialEq, Eq)]
pub struct Dim(pub [i8; 9]);

const METAL: usize = 6;
const POINT: usize = 7;
const MONEY: usize = 8;

/// As a reader would write it: `kg·m^-3`.
impl std::fmt::Debug for Dim {
    fn fmt(&self, f: &mut std::fmt::Formatter) -> std::fmt::Result {
        let axes = ["kg", "m", "s", "K", "mol", "A", "kg of metal", "point on a scale", "money"];
        let present = axes.into_iter().zip(self.0).filter(|(_, e)| *e != 0);
        let factors: Vec<_> = present
            .map(|(unit, sixths)| match (sixths / 6, sixths % 6) {
                (1, 0) => unit.to_string(),
                (whole, 0) => format!("{unit}^{whole}"),
                _ => format!("{unit}^({sixths}/6)"),
            })
            .collect();
        f.write_str(if factors.is_empty() { "a bare number" } else { "" })?;
        f.write_str(&factors.join("·"))
    }
}

/// Shorthand for the table of kinds: mass, length, time, temperature, amount, current.
const fn d(mass: i8, length: i8, time: i8, temperature: i8, amount: i8, current: i8) -> Dim {
    Dim([6 * mass, 6 * length, 6 * time, 6 * temperature, 6 * amount, 6 * current, 0, 0, 0])
}

impl Dim {
    /// The dimension of a bare number.
    pub const NONE: Dim = Dim([0; 9]);

    const fn and(mut self, axis: usize, exponent: i8) -> Dim {
        self.0[axis] = 6 * exponent;
        self
    }

    /// Whether it is a point on a scale, which can be compared and subtracted but not multiplied.
    pub fn is_point(self) -> bool {
        self.0[POINT] != 0
    }

    /// The dimension of `self + sign·other`, or `None` if there is no such sum: two lengths make a
    /// length, two points a difference, a point and a difference a point, two points no sum.
    pub fn plus(self, sign: i8, other: Dim) -> Option<Dim> {
        let (point, others) = (self.0[POINT] + sign * other.0[POINT], other.and(POINT, 0));
        (self.and(POINT, 0) == others && (0..=6).contains(&point)).then(|| others.and(POINT, point / 6))
    }

    /// The dimension of a product.
    pub fn times(self, other: Dim) -> Dim {
        Dim(std::array::from_fn(|k| self.0[k] + other.0[k]))
    }

    /// The dimension of a quotient.
    pub fn over(self, other: Dim) -> Dim {
        Dim(std::array::from_fn(|k| self.0[k] - other.0[k]))
    }

    /// The dimension of a power `over/under`; `None` if an exponent would not be whole sixths.
    pub fn power(self, over: i8, under: i8) -> Option<Dim> {
        let whole = self.0.iter().all(|exponent| exponent * over % under == 0);
        whole.then(|| Dim(self.0.map(|exponent| exponent * over / under)))
    }
}

/// Declares each kind once: its name in code, what messages call it, and its dimension.
macro_rules! kinds {
    ($($name:ident = $called:literal, $dim:expr;)*) => {
        /// What is measured. Two kinds may share a dimension (a slope and a fraction are both bare
        /// numbers) and still offer different units.
        #[derive(Clone, Copy, Debug, PartialEq, Eq)]
        pub enum Kind {
            $(#[doc = concat!("Measures ", $called, ".")] $name,)*
        }

        impl Kind {
            /// The dimension that results of this kind must have.
            pub const fn dim(self) -> Dim {
                match self { $(Kind::$name => $dim,)* }
            }

            /// What messages call it: "a volume".
            pub const fn called(self) -> &'static str {
                match self { $(Kind::$name => $called,)* }
            }
        }
    };
}

kinds! {
    Number = "a plain number", Dim::NONE;
    Fraction = "a share", Dim::NONE;
    MassFraction = "a mass fraction", Dim::NONE;
    Slope = "a slope", Dim::NONE;
    VolumePerVolume = "a volume per volume", Dim::NONE;
    Angle = "an angle", Dim::NONE;
    Length = "a length", d(0, 1, 0, 0, 0, 0);
    Thickness = "a thickness", d(0, 1, 0, 0, 0, 0);
    VolumePerArea = "a volume per area", d(0, 1, 0, 0, 0, 0);
    Area = "an area", d(0, 2, 0, 0, 0, 0);
    Volume = "a volume", d(0, 3, 0, 0, 0, 0);
    Flow = "a flow", d(0, 3, -1, 0, 0, 0);
    Time = "a time", d(0, 0, 1, 0, 0, 0);
    Rate = "a rate", d(0, 0, -1, 0, 0, 0);
    Velocity = "a velocity", d(0, 1, -1, 0, 0, 0);
    FlowPerArea = "a flow per area", d(0, 1, -1, 0, 0, 0);
    ServiceRate = "bed volumes per time", d(0, 0, -1, 0, 0, 0);
    Acceleration = "an acceleration", d(0, 1, -2, 0, 0, 0);
    Mass = "a mass", d(1, 0, 0, 0, 0, 0);
    MassFlow = "a mass flow", d(1, 0, -1, 0, 0, 0);
    MassFlux = "a mass flow per area", d(1, -2, -1, 0, 0, 0);
    Temperature = "a temperature", d(0, 0, 0, 1, 0, 0).and(POINT, 1);
    TemperatureDifference = "a temperature difference", d(0, 0, 0, 1, 0, 0);
    TemperatureRate = "a heating rate", d(0, 0, -1, 1, 0, 0);
    Concentration = "a mass per volume", d(1, -3, 0, 0, 0, 0);
    AmountConcentration = "an amount per volume", d(0, -3, 0, 0, 1, 0);
    EquivalentConcentration = "equivalents per volume", d(0, -3, 0, 0, 1, 0);
    EquivalentFlow = "equivalents per time", d(0, 0, -1, 0, 1, 0);
    UptakeRate = "a volume per equivalent and time", d(0, 3, -1, 0, -1, 0);
    MetalConcentration = "a mass of metal per volume", d(0, -3, 0, 0, 0, 0).and(METAL, 1);
    MetalFraction = "a share of metal by mass", d(-1, 0, 0, 0, 0, 0).and(METAL, 1);
    MetalMolarMass = "a molar mass of metal", d(0, 0, 0, 0, -1, 0).and(METAL, 1);
    MetalMass = "a mass of metal", Dim::NONE.and(METAL, 1);
    MetalFlow = "a mass of metal per time", d(0, 0, -1, 0, 0, 0).and(METAL, 1);
    Density = "a density", d(1, -3, 0, 0, 0, 0);
    MolarMass = "a molar mass", d(1, 0, 0, 0, -1, 0);
    Amount = "an amount", d(0, 0, 0, 0, 1, 0);
    MolarEnergy = "an energy per amount", d(1, 2, -2, 0, -1, 0);
    MolarHeatCapacity = "an energy per amount and kelvin", d(1, 2, -2, -1, -1, 0);
    SpecificEnergy = "an energy per mass", d(0, 2, -2, 0, 0, 0);
    Energy = "an energy", d(1, 2, -2, 0, 0, 0);
    Power = "a power", d(1, 2, -3, 0, 0, 0);
    ApparentPower = "an apparent power", d(1, 2, -3, 0, 0, 0);
    PowerPerVolume = "a power per volume", d(1, -1, -3, 0, 0, 0);
    HeatCapacity = "a heat capacity", d(0, 2, -2, -1, 0, 0);
    TankHeatCapacity = "a heat capacity of a whole tank", d(1, 2, -2, -1, 0, 0);
    Conductance = "a heat flow per kelvin", d(1, 2, -3, -1, 0, 0);
    Pressure = "a pressure", d(1, -1, -2, 0, 0, 0);
    Viscosity = "a viscosity", d(1, -1, -1, 0, 0, 0);
    HeatTransfer = "a heat flow per area and kelvin", d(1, 0, -3, -1, 0, 0);
    Fouling = "an area and kelvin per heat flow", d(-1, 0, 3, 1, 0, 0);
    ThermalConductivity = "a thermal conductivity", d(1, 1, -3, -1, 0, 0);
    EvaporationCoefficient = "a heat flow per area and pressure", d(0, 1, -1, 0, 0, 0);
    GasFlow = "a gas flow at a stated reference", d(0, 0, -1, 0, 1, 0);
    Current = "a current", d(0, 0, 0, 0, 0, 1);
    CurrentDensity = "a current density", d(0, -2, 0, 0, 0, 1);
    Charge = "a charge", d(0, 0, 1, 0, 0, 1);
    VolumePerCharge = "a volume per charge", d(0, 3, -1, 0, 0, -1);
    ChargeRate = "a charge per time", d(0, 0, 0, 0, 0, 1);
    ChargePerAmount = "a charge per amount", d(0, 0, 1, 0, -1, 1);
    ChargePerMass = "a charge per mass", d(-1, 0, 1, 0, 0, 1);
    MassPerCharge = "a mass per charge", d(1, 0, -1, 0, 0, -1);
    ChargePerVolume = "a charge per volume", d(0, -3, 1, 0, 0, 1);
    AmountRate = "an amount per time", d(0, 0, -1, 0, 1, 0);
    Voltage = "a voltage", d(1, 2, -3, 0, 0, -1);
    Conductivity = "a conductivity", d(-1, -3, 3, 0, 0, 2);
    ManningRoughness = "a Manning roughness", Dim([0, -2, 6, 0, 0, 0, 0, 0, 0]);
    Money = "an amount of money", Dim::NONE.and(MONEY, 1);
    PricePerMass = "a price per mass of metal", Dim::NONE.and(METAL, -1).and(MONEY, 1);
    PricePerCompound = "a price per mass", d(-1, 0, 0, 0, 0, 0).and(MONEY, 1);
    PricePerVolume = "a price per volume", d(0, -3, 0, 0, 0, 0).and(MONEY, 1);
    PricePerEnergy = "a price per energy", d(-1, -2, 2, 0, 0, 0).and(MONEY, 1);
    PricePerGas = "a price per gas at a stated reference", d(0, 0, 0, 0, -1, 0).and(MONEY, 1);
}

impl Kind {
    /// The units that the user may choose from, in the order of the table.
    pub fn units(self) -> impl Iterator<Item = &'static Unit> {
        UNITS.iter().copied().filter(move |unit| unit.kind == self)
    }
}

impl Kind {
    /// Whether it is money for an amount of something.
    pub const fn is_price(self) -> bool {
        use Kind::*;
        matches!(self, PricePerMass | PricePerCompound | PricePerVolume | PricePerEnergy | PricePerGas)
    }
}

//! Every unit, one line each: name in code, symbol, kind, SI units in one, who uses it, other spellings.
//!
//! Exact by definition: inch 25.4 mm, pound 0.45359237 kg, US gallon 231 in³, imperial gallon
//! 4.54609 L, psi from pound and inch with g = 9.80665 m/s², thermochemical reference litres from
//! R = 8.314462618 J/(mol·K) (CODATA 2018).

use super::{Kind, Scale, Unit, Use, WATER_60F};

/// Declares each unit once: a constant to use in declarations, and its place in [`UNITS`].
macro_rules! units {
    ($($name:ident = $symbol:literal, $kind:ident, $factor:expr, $used:ident $(, $alias:literal)* $(@ zero $zero:expr)?;)*) => {
        $(#[doc = concat!("The unit `", $symbol, "`.")]
        pub const $name: &Unit = &Unit {
            symbol: $symbol,
            aliases: &[$($alias),*],
            kind: Kind::$kind,
            scale: Scale::Linear { factor: $factor, zero: 0.0 $(+ $zero)? },
            used: Use::$used,
        };)*
        const LINEAR: &[&Unit] = &[$($name),*];
    };
}

const LB: f64 = 0.45359237;
const OZ: f64 = LB / 16.0;
const GAL: f64 = 3.785411784e-3;
const IMP_GAL: f64 = 4.54609e-3;
const IN: f64 = 0.0254;
const FT: f64 = 0.3048;
const G: f64 = 9.80665;
const MIN: f64 = 60.0;
const H: f64 = 3600.0;
const DAY: f64 = 86400.0;
/// British thermal unit (international table), J: exact, 2326 J/kg per Btu/lb.
const BTU: f64 = 2326.0 * LB;
const R: f64 = 8.314462618;

/// Moles in a litre of ideal gas at a temperature (K) and an absolute pressure (Pa).
const fn litre_of_gas(kelvin: f64, pascal: f64) -> f64 {
    pascal * 1e-3 / (R * kelvin)
}

units! {
    NUMBER = "", Number, 1.0, All;
    SHARE = "", Fraction, 1.0, Asked;
    PERCENT = "%", Fraction, 0.01, All;
    MASS_FRACTION = "kg/kg", MassFraction, 1.0, Asked;
    MASS_PERCENT = "% by mass", MassFraction, 0.01, All, "%", "mass %", "% w/w", "wt%", "wt %";
    PPM_MASS = "ppm by mass", MassFraction, 1e-6, Asked, "ppm";
    INCH_PER_FOOT = "in/ft", Slope, 1.0 / 12.0, All, "\"/ft";
    PERCENT_SLOPE = "%", Slope, 0.01, All;
    MM_PER_M = "mm/m", Slope, 1e-3, All;
    DEGREE = "°", Angle, std::f64::consts::PI / 180.0, All, "deg", "degree", "degrees";
    ML_PER_L = "mL/L", VolumePerVolume, 1e-3, All, "ml/l", "ml/L";
    FLOZ_PER_GAL = "US fl oz/US gal", VolumePerVolume, 1.0 / 128.0, Asked, "fl oz/gal";
    PPM_VOLUME = "ppm by volume", VolumePerVolume, 1e-6, Asked, "ppm";
    VOLUME_PERCENT = "% by volume", VolumePerVolume, 0.01, All, "%", "vol %", "% v/v";

    M = "m", Length, 1.0, Metric;
    MM = "mm", Length, 1e-3, Metric;
    CM = "cm", Length, 1e-2, Asked;
    FOOT = "ft", Length, FT, Us, "'", "foot", "feet";
    INCH = "in", Length, IN, Us, "\"", "inch", "inches";
    UM = "µm", Thickness, 1e-6, Metric, "μm", "um", "micron", "microns";
    NM = "nm", Thickness, 1e-9, Metric;
    MIL = "mil", Thickness, IN * 1e-3, Us, "mils";
    UIN = "µin", Thickness, IN * 1e-6, Us, "μin", "uin";
    ML_PER_M2 = "mL/m²", VolumePerArea, 1e-6, Metric, "mL/m2", "ml/m2";
    GALLON_PER_1000_FT2 = "US gal/1000 ft²", VolumePerArea, GAL / (1000.0 * FT * FT), Us, "gal/1000 ft2";
    M2 = "m²", Area, 1.0, Metric, "m2", "m^2";
    DM2 = "dm²", Area, 1e-2, Metric, "dm2";
    CM2 = "cm²", Area, 1e-4, Metric, "cm2";
    FT2 = "ft²", Area, FT * FT, Us, "ft2", "sq ft";
    IN2 = "in²", Area, IN * IN, Us, "in2", "sq in";

    L = "L", Volume, 1e-3, Metric, "l", "litre", "litres", "liter", "liters";
    ML = "mL", Volume, 1e-6, All, "ml";
    M3 = "m³", Volume, 1.0, Metric, "m3", "m^3";
    GALLON = "US gal", Volume, GAL, Us, "US gallon", "US gallons";
    FLUID_OUNCE = "US fl oz", Volume, GAL / 128.0, Us, "fl oz";
    IMPERIAL_GALLON = "imperial gal", Volume, IMP_GAL, Asked, "imp gal", "UK gal";
    L_PER_MIN = "L/min", Flow, 1e-3 / MIN, Metric, "l/min", "lpm";
    ML_PER_MIN = "mL/min", Flow, 1e-6 / MIN, Metric, "ml/min";
    L_PER_S = "L/s", Flow, 1e-3, Asked, "l/s";
    L_PER_H = "L/h", Flow, 1e-3 / H, Metric, "l/h";
    L_PER_DAY = "L/day", Flow, 1e-3 / DAY, Metric, "l/day", "L/d", "l/d";
    ML_PER_H = "mL/h", Flow, 1e-6 / H, Metric, "ml/h";
    ML_PER_DAY = "mL/day", Flow, 1e-6 / DAY, All, "ml/day", "mL/d";
    M3_PER_H = "m³/h", Flow, 1.0 / H, Metric, "m3/h";
    M3_PER_S = "m³/s", Flow, 1.0, Asked, "m3/s";
    M3_PER_DAY = "m³/day", Flow, 1.0 / DAY, Metric, "m3/day", "m3/d", "m³/d";
    GALLON_PER_MIN = "US gal/min", Flow, GAL / MIN, Us, "gpm US";
    GALLON_PER_HOUR = "US gal/h", Flow, GAL / H, Asked, "gph";
    GALLON_PER_DAY = "US gal/day", Flow, GAL / DAY, Us;
    IMPERIAL_GALLON_PER_MIN = "imperial gal/min", Flow, IMP_GAL / MIN, Asked, "imp gal/min";
    CUBIC_FOOT_PER_MIN = "ft³/min", Flow, FT * FT * FT / MIN, Asked, "ft3/min", "cfm";

    MINUTE = "min", Time, MIN, All, "minute", "minutes";
    SECOND = "s", Time, 1.0, All, "sec", "second", "seconds";
    HOUR = "h", Time, H, All, "hr", "hour", "hours";
    DAYS = "days", Time, DAY, All, "day", "d";
    PER_DAY = "per day", Rate, 1.0 / DAY, All, "/day", "/d", "1/day";
    PER_HOUR = "per hour", Rate, 1.0 / H, All, "/h", "1/h";
    PERCENT_PER_DAY = "%/day", Rate, 0.01 / DAY, Asked, "% per day", "%/d";
    BED_VOLUMES_PER_HOUR = "bed volumes/h", ServiceRate, 1.0 / H, All, "BV/h", "per hour";
    GALLON_PER_MIN_FT3 = "US gal/(min·ft³)", ServiceRate, GAL / (MIN * FT * FT * FT), Asked, "gpm/ft3", "gal/min/ft3";
    PER_MINUTE = "per min", Rate, 1.0 / MIN, All, "/min", "1/min", "rpm", "rev/min";
    M_PER_S = "m/s", Velocity, 1.0, Metric;
    FT_PER_S = "ft/s", Velocity, FT, Us;
    M_PER_H = "m/h", FlowPerArea, 1.0 / H, Metric, "m³/(h·m²)", "m3/h/m2";
    M_PER_S_OF_BED = "m/s", FlowPerArea, 1.0, Asked;
    M3_PER_DAY_M2 = "m³/(day·m²)", FlowPerArea, 1.0 / DAY, Asked, "m3/d/m2";
    GALLON_PER_MIN_FT2 = "US gal/(min·ft²)", FlowPerArea, GAL / (MIN * FT * FT), Us, "gpm/ft2";
    M_PER_S2 = "m/s²", Acceleration, 1.0, All, "m/s2";

    KG = "kg", Mass, 1.0, Metric;
    GRAM = "g", Mass, 1e-3, Metric;
    MG = "mg", Mass, 1e-6, Metric;
    POUND = "lb", Mass, LB, Us, "lbs";
    OUNCE = "oz", Mass, OZ, Us;
    KG_PER_MIN = "kg/min", MassFlow, 1.0 / MIN, Metric;
    KG_PER_H = "kg/h", MassFlow, 1.0 / H, Metric;
    KG_PER_DAY = "kg/day", MassFlow, 1.0 / DAY, Metric, "kg/d";
    G_PER_DAY = "g/day", MassFlow, 1e-3 / DAY, Metric, "g/d";
    G_PER_H = "g/h", MassFlow, 1e-3 / H, Asked;
    KG_PER_S = "kg/s", MassFlow, 1.0, Asked;
    LB_PER_H = "lb/h", MassFlow, LB / H, Us, "lb/hr";
    LB_PER_MIN = "lb/min", MassFlow, LB / MIN, Us;
    KG_PER_H_M2 = "kg/(h·m²)", MassFlux, 1.0 / H, All, "kg/h/m2";

    CELSIUS = "°C", Temperature, 1.0, Metric, "C", "degC", "deg C", "º C", "ºC" @ zero 273.15;
    FAHRENHEIT = "°F", Temperature, 5.0 / 9.0, Us, "F", "degF", "deg F", "ºF" @ zero 459.67 * 5.0 / 9.0;
    KELVIN = "K", Temperature, 1.0, Asked;
    KELVINS = "K", TemperatureDifference, 1.0, Metric;
    FAHRENHEIT_STEPS = "°F difference", TemperatureDifference, 5.0 / 9.0, Us, "°F", "F", "degF", "Δ°F";
    KELVIN_PER_HOUR = "K/h", TemperatureRate, 1.0 / H, All;

    G_PER_L = "g/L", Concentration, 1.0, All, "g/l", "kg/m³";
    MG_PER_L = "mg/L", Concentration, 1e-3, All, "mg/l";
    MG_PER_M3 = "mg/m³", Concentration, 1e-6, Asked, "mg/m3";
    OZ_PER_GAL = "oz/US gal", Concentration, OZ / GAL, Us, "oz/gal";
    MOL_PER_L = "mol/L", AmountConcentration, 1e3, All, "mol/l", "M";
    MMOL_PER_L = "mmol/L", AmountConcentration, 1.0, All, "mmol/l", "mM";
    MEQ_PER_L = "meq/L", EquivalentConcentration, 1.0, All, "meq/l";
    EQ_PER_L = "eq/L", EquivalentConcentration, 1e3, All, "eq/l";
    EQ_PER_DAY = "eq/day", EquivalentFlow, 1.0 / DAY, All, "eq/d";
    EQ_PER_H = "eq/h", EquivalentFlow, 1.0 / H, Asked;
    L_PER_EQ_H = "L/(eq·h)", UptakeRate, 1e-3 / H, All, "L/eq/h";
    M3_PER_MOL_S = "m³/(mol·s)", UptakeRate, 1.0, Asked, "m3/mol/s", "m3/(mol·s)";
    GRAINS_PER_GALLON = "grains CaCO₃/US gal", EquivalentConcentration, 0.06479891 / 50.0435 / (GAL * 1e3) * 1e3, Us, "grains per gal", "gr/gal", "gpg";
    G_PER_L_METAL = "g/L of metal", MetalConcentration, 1.0, All, "g/l";
    MG_PER_L_METAL = "mg/L of metal", MetalConcentration, 1e-3, All, "mg/l";
    UG_PER_L_METAL = "µg/L of metal", MetalConcentration, 1e-6, All, "ug/L";
    OZ_PER_GAL_METAL = "oz/US gal of metal", MetalConcentration, OZ / GAL, Us, "oz/gal";
    PERCENT_METAL = "% of metal", MetalFraction, 0.01, All, "%";
    MG_METAL = "mg of metal", MetalMass, 1e-6, All;
    G_METAL = "g of metal", MetalMass, 1e-3, All;
    KG_METAL = "kg of metal", MetalMass, 1.0, All;
    LB_METAL = "lb of metal", MetalMass, LB, Us;
    G_PER_DAY_METAL = "g/day of metal", MetalFlow, 1e-3 / DAY, All, "g/d";
    MG_PER_DAY_METAL = "mg/day of metal", MetalFlow, 1e-6 / DAY, All, "mg/d";
    UG_PER_DAY_METAL = "µg/day of metal", MetalFlow, 1e-9 / DAY, All, "ug/day", "µg/d", "ug/d";
    G_PER_H_METAL = "g/h of metal", MetalFlow, 1e-3 / H, Asked, "g/h";
    KG_PER_DAY_METAL = "kg/day of metal", MetalFlow, 1.0 / DAY, All, "kg/d";
    LB_PER_DAY_METAL = "lb/day of metal", MetalFlow, LB / DAY, Us;

    KG_PER_L = "kg/L", Density, 1000.0, All, "kg/l", "g/mL", "g/ml", "g/cm³", "g/cm3";
    KG_PER_M3 = "kg/m³", Density, 1.0, All, "kg/m3", "g/L";
    SPECIFIC_GRAVITY_20_4 = "specific gravity 20/4 °C", Density, 999.972, Asked, "SG 20/4", "SG 20/4 °C";
    SPECIFIC_GRAVITY_20_20 = "specific gravity 20/20 °C", Density, 998.2072, Asked, "SG 20/20", "SG 20/20 °C";
    SPECIFIC_GRAVITY_60F = "specific gravity 60/60 °F", Density, WATER_60F, Asked, "SG 60/60", "SG 60/60 °F";
    LB_PER_GALLON = "lb/US gal", Density, LB / GAL, Us, "lb/gal";
    G_PER_MOL = "g/mol", MolarMass, 1e-3, All;
    G_PER_MOL_METAL = "g/mol of metal", MetalMolarMass, 1e-3, All;
    MOL = "mol", Amount, 1.0, All;
    KJ_PER_MOL = "kJ/mol", MolarEnergy, 1e3, All;
    J_PER_MOL_K = "J/(mol·K)", MolarHeatCapacity, 1.0, All, "J/mol/K";
    KJ_PER_KG = "kJ/kg", SpecificEnergy, 1e3, Metric;
    BTU_PER_LB = "BTU/lb", SpecificEnergy, 2326.0, Us, "Btu/lb";
    KWH = "kWh", Energy, 3.6e6, All;
    KJ = "kJ", Energy, 1e3, Metric;
    MJ = "MJ", Energy, 1e6, Metric;
    BTU_ENERGY = "BTU", Energy, BTU, Us, "Btu";
    KW = "kW", Power, 1e3, Metric;
    WATT = "W", Power, 1.0, Metric;
    BTU_PER_H = "BTU/h", Power, BTU / H, Us, "Btu/h", "BTU/hr";
    TON_OF_REFRIGERATION = "tons of refrigeration", Power, 12000.0 * BTU / H, Asked, "TR";
    W_PER_M3 = "W/m³", PowerPerVolume, 1.0, Metric, "W/m3";
    HORSEPOWER_PER_1000_GALLONS = "hp/1000 US gal", PowerPerVolume, 550.0 * FT * LB * G / (1000.0 * GAL), Us, "hp/1000 gal";
    HORSEPOWER = "hp", Power, 550.0 * FT * LB * G, Asked;
    KVA = "kVA", ApparentPower, 1e3, All;
    KJ_PER_KG_K = "kJ/(kg·K)", HeatCapacity, 1e3, All, "kJ/kg/K", "kJ/kgK", "kJ/(kg K)";
    BTU_PER_LB_F = "BTU/(lb·°F)", HeatCapacity, 4186.8, Us, "Btu/lb/F";
    KJ_PER_K = "kJ/K", TankHeatCapacity, 1e3, All;
    KW_PER_K = "kW/K", Conductance, 1e3, Metric;
    W_PER_K = "W/K", Conductance, 1.0, Metric;
    BTU_PER_H_F = "BTU/(h·°F)", Conductance, BTU / H * 1.8, Us, "Btu/h/F";

    KPA = "kPa", Pressure, 1e3, Metric;
    BAR = "bar", Pressure, 1e5, Metric;
    PASCAL = "Pa", Pressure, 1.0, Metric;
    PSI = "psi", Pressure, LB * G / (IN * IN), Us;
    M_OF_WATER = "m of water", Pressure, G * 1000.0, Asked, "mH2O";
    FOOT_OF_WATER = "ft of water", Pressure, G * 1000.0 * FT, Asked, "ftH2O";
    INCH_OF_WATER_60F = "in of water (60 °F)", Pressure, G * WATER_60F * IN, Asked, "inH2O 60F";
    ATMOSPHERE = "atm", Pressure, 101325.0, Asked;
    INCH_OF_WATER = "in of water", Pressure, G * 1000.0 * IN, Us, "inH2O";
    MPAS = "mPa·s", Viscosity, 1e-3, All, "mPas", "mPa s";
    PA_S = "Pa·s", Viscosity, 1.0, Asked, "Pas", "Pa s";
    CENTIPOISE = "cP", Viscosity, 1e-3, All;
    W_PER_M2_K = "W/(m²·K)", HeatTransfer, 1.0, Metric, "W/m2/K", "W/m²/K", "W/(m2·K)";
    BTU_PER_H_FT2_F = "BTU/(h·ft²·°F)", HeatTransfer, BTU / H * 1.8 / (FT * FT), Us, "Btu/h/ft2/F";
    M2_K_PER_W = "m²·K/W", Fouling, 1.0, Metric, "m2K/W", "m2·K/W", "m²K/W";
    H_FT2_F_PER_BTU = "h·ft²·°F/BTU", Fouling, FT * FT * H / (BTU * 1.8), Us, "h·ft2·F/Btu";
    W_PER_M_K = "W/(m·K)", ThermalConductivity, 1.0, All;
    KW_PER_M2_KPA = "kW/(m²·kPa)", EvaporationCoefficient, 1.0, All;
    NORMAL_L_PER_MIN = "NL/min (0 °C, 101.325 kPa)", GasFlow, litre_of_gas(273.15, 101325.0) / MIN, Metric, "NL/min", "Nl/min";
    NORMAL_L_PER_H = "NL/h (0 °C, 101.325 kPa)", GasFlow, litre_of_gas(273.15, 101325.0) / H, Metric, "NL/h", "Nl/h";
    NORMAL_ML_PER_H = "NmL/h (0 °C, 101.325 kPa)", GasFlow, litre_of_gas(273.15, 101325.0) * 1e-3 / H, Metric, "NmL/h";
    NORMAL_M3_PER_H = "Nm³/h (0 °C, 101.325 kPa)", GasFlow, litre_of_gas(273.15, 101325.0) * 1e3 / H, Metric, "Nm3/h", "Nm³/h";
    GAS_L_PER_MIN_15 = "L/min (15 °C, 101.325 kPa)", GasFlow, litre_of_gas(288.15, 101325.0) / MIN, Asked;
    GAS_L_PER_MIN_20 = "L/min (20 °C, 100 kPa)", GasFlow, litre_of_gas(293.15, 1e5) / MIN, Asked;
    GAS_L_PER_MIN_25 = "L/min (25 °C, 100 kPa)", GasFlow, litre_of_gas(298.15, 1e5) / MIN, Asked;
    GAS_L_PER_MIN_70F = "L/min (70 °F, 14.696 psi)", GasFlow, litre_of_gas(294.2611111111111, 101325.0) / MIN, Asked;
    STANDARD_L_PER_MIN = "L/min (20 °C, 101.325 kPa)", GasFlow, litre_of_gas(293.15, 101325.0) / MIN, Metric, "sL/min";
    STANDARD_FT3_PER_MIN = "ft³/min (60 °F, 14.696 psi)", GasFlow, litre_of_gas(288.7055555555556, 101325.0) * 1e3 * FT * FT * FT / MIN, Us, "scfm";

    AMPERE = "A", Current, 1.0, All;
    A_PER_DM2 = "A/dm²", CurrentDensity, 100.0, Metric, "A/dm2", "ASD";
    MA_PER_CM2 = "mA/cm²", CurrentDensity, 10.0, Metric, "mA/cm2";
    A_PER_FT2 = "A/ft²", CurrentDensity, 1.0 / (FT * FT), Us, "A/ft2", "ASF";
    A_H = "A·h", Charge, H, All, "Ah", "A.h";
    KA_H = "kA·h", Charge, 1e3 * H, All, "kAh", "kA.h";
    A_MIN = "A·min", Charge, MIN, All, "Amin", "A.min";
    A_S = "A·s", Charge, 1.0, Asked, "coulomb", "coulombs";
    ML_PER_KAH = "mL/(kA·h)", VolumePerCharge, 1e-6 / (1e3 * H), All, "mL/kAh", "ml/kAh", "mL/kA·h";
    ML_PER_AH = "mL/(A·h)", VolumePerCharge, 1e-6 / H, All, "mL/Ah", "ml/Ah", "mL/A·h";
    AH_PER_DAY = "A·h/day", ChargeRate, H / DAY, All, "Ah/day", "Ah/d";
    KAH_PER_DAY = "kA·h/day", ChargeRate, 1e3 * H / DAY, All, "kAh/day", "kAh/d";
    AH_PER_H = "A·h/h", ChargeRate, 1.0, Asked, "Ah/h";
    C_PER_MOL = "C/mol", ChargePerAmount, 1.0, All;
    AH_PER_G = "A·h/g", ChargePerMass, 1e3 * H, All, "Ah/g";
    G_PER_AH = "g/(A·h)", MassPerCharge, 1e-3 / H, All, "g/Ah", "g/A·h";
    G_PER_KAH = "g/(kA·h)", MassPerCharge, 1e-6 / H, All, "g/kAh", "g/kA·h";
    MG_PER_C = "mg/C", MassPerCharge, 1e-6, Asked;
    AH_PER_L = "A·h/L", ChargePerVolume, H * 1e3, All, "Ah/L", "Ah/l";
    MOL_PER_DAY = "mol/day", AmountRate, 1.0 / DAY, All, "mol/d";
    VOLT = "V", Voltage, 1.0, All;
    US_PER_CM = "µS/cm", Conductivity, 1e-4, All, "μS/cm", "uS/cm";
    MS_PER_CM = "mS/cm", Conductivity, 0.1, All;
    ROUGHNESS = "s/m^(1/3)", ManningRoughness, 1.0, All;

    MONEY = "of your currency", Money, 1.0, All;
    PER_KG = "per kg", PricePerMass, 1.0, Metric, "/kg";
    PER_LB = "per lb", PricePerMass, 1.0 / LB, Us, "/lb";
    PER_KG_BOUGHT = "per kg", PricePerCompound, 1.0, Metric, "/kg";
    PER_LB_BOUGHT = "per lb", PricePerCompound, 1.0 / LB, Us, "/lb";
    PER_GRAM = "per g", PricePerMass, 1e3, Asked, "/g";
    PER_M3 = "per m³", PricePerVolume, 1.0, Metric, "/m3", "/m³", "per m3";
    PER_L = "per L", PricePerVolume, 1e3, Metric, "/L";
    PER_GALLON = "per US gal", PricePerVolume, 1.0 / GAL, Us, "/gal";
    PER_KWH = "per kWh", PricePerEnergy, 1.0 / 3.6e6, All, "/kWh";
    PER_NORMAL_M3 = "per m³ (0 °C, 101.325 kPa)", PricePerGas, 1e-3 / litre_of_gas(273.15, 101325.0), All, "/m3", "/m³", "per m³", "per m3";
}

/// Degrees Baumé, heavier than water, 60 °F, modulus 145.
pub const BAUME: &Unit = &Unit {
    symbol: "°Bé (heavy, 60 °F)",
    aliases: &["°Bé", "Bé", "Be", "°Be"],
    kind: Kind::Density,
    scale: Scale::Baume,
    used: Use::Asked,
};

const COUNT: usize = LINEAR.len() + 1;

/// Every unit.
pub static UNITS: [&Unit; COUNT] = {
    let mut all = [BAUME; COUNT];
    let mut k = 0;
    while k < LINEAR.len() {
        all[k] = LINEAR[k];
        k += 1;
    }
    all
};

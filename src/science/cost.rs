//! What running costs: amounts times prices, and which price belongs to which amount.

use crate::quantity::Q;

/// Energy used in a time: `W = P·d·t`. `P` connected power, `d` share of the time or of the power in use,
/// `t` hours of service, not all hours of a year by default. Source: definition.
pub fn energy_used(power: Q, demand: Q, time: Q) -> Q {
    power * demand * time
}

/// Energy that a rectifier takes from the mains to pass a charge: `W = Q·U/η`. `U` voltage at the tank, `η`
/// its efficiency. Source: definition of the volt.
pub fn rectifier_energy(charge: Q, voltage: Q, efficiency: Q) -> Q {
    charge * voltage / efficiency
}

/// Cost of an amount: `c = x·p`. The price is of what is bought: a kilogram of salt has another price than a
/// kilogram of its metal. Source: definition.
pub fn cost_of(amount: Q, price: Q) -> Q {
    amount * price
}

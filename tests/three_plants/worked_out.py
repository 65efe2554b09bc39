"""Values that tests/three_plants.rs expects, worked out apart from the project.

No part of Bathbook runs here: the laws are written again, short, from where they are published, and the figures of
the three invented plants are typed again. Run with Python 3.11, numpy 2.4.6, scipy 1.17.1 and fluids 1.3.1:

    python tests/three_plants/worked_out.py

Where each law comes from:
- Faraday: CODATA F; atomic weights: IUPAC, abridged to five figures; densities of the metals as periodictable 2.1.0 has them.
- Rinses: stage balances of stirred stages, solved by numpy.linalg.solve, not by the closed formula of the project.
- Friction: fluids.friction.friction_factor (Clamond) and Darcy-Weisbach, laminar 64/Re; g 9.80665 m/s2.
- Gravity drain: 1/4 in per ft is 1 in 48; Manning in a circular segment, theta by its definition; dump: Torricelli,
  time of emptying by scipy.integrate.quad of the tank's balance.
- Lift: V = q T / 4; ride-through = volume / inflow; storage for a dump by scipy solve_ivp of the station's balance.
- Ion exchange: equivalents; bed * capacity * share used over the load a day.
- Neutralisation: 2 mol NaOH to 1 mol H2SO4, 2 mol to 1 mol of metal that falls.
- Containers: usable volume over what comes; 365 days of the calendar over the days of service.
- Containment: 40 CFR 264.175(b)(3), the greater of the largest container and a tenth of all.
"""

import math

import fluids
import numpy as np
from scipy.integrate import quad, solve_ivp

F = 96485.33212
G = 9.80665
M = {"Cu": 63.546, "Ni": 58.693, "Au": 196.97, "Sn": 118.71, "Ag": 107.87}


def show(name, value, unit=""):
    print(f"{name:58s} {value:.6g} {unit}")


# --- laws ---------------------------------------------------------------------------------------------------------

def area(diameter_mm, edge_mm, open_share):
    """Open area of a wafer, m2."""
    return math.pi * ((diameter_mm / 2 - edge_mm) / 1000) ** 2 * open_share


def plated(a, microns, deposit):
    """Mass (g) and charge (C, before efficiency) of a layer; deposit: {metal: (mass share, electrons, g/cm3)}."""
    density = 1 / sum(w / rho for w, _, rho in deposit.values()) * 1e6
    mass = a * microns * 1e-6 * density
    charge = sum(mass * w / M[metal] * z * F for metal, (w, z, _) in deposit.items())
    return mass, charge


def rinse(stages, c0, drag, water):
    """Counterflow stages: what leaves to the drain, and what stays on the wafer, in c0's unit."""
    a, b = np.zeros((stages, stages)), np.zeros(stages)
    for k in range(stages):
        a[k, k] = drag + water
        if k > 0:
            a[k, k - 1] = -drag
        else:
            b[k] = drag * c0
        if k + 1 < stages:
            a[k, k + 1] = -water
    c = np.linalg.solve(a, b)
    return c[0], c[-1]


def friction(q_l_min, bore_mm, run, k, rho, mu_mpas, rough_mm=0.0015):
    """Pa, velocity, Reynolds."""
    d = bore_mm / 1000
    v = q_l_min / 60000 / (math.pi / 4 * d * d)
    re = rho * v * d / (mu_mpas / 1000)
    f = 64 / re if re < 2000 else fluids.friction.friction_factor(Re=re, eD=rough_mm / bore_mm)
    return (f * run / d + k) * rho * v * v / 2, v, re


def line(q, bore, run, rise, k, rho, mu):
    lost, v, re = friction(q, bore, run, k, rho, mu)
    return (lost + rho * G * rise) / 1000, v, re


def manning(bore_mm, share, slope, n):
    """L/min."""
    d = bore_mm / 1000
    theta = 2 * math.acos(1 - 2 * share)
    a = d * d / 8 * (theta - math.sin(theta))
    r = d / 4 * (1 - math.sin(theta) / theta)
    return a * r ** (2 / 3) * slope**0.5 / n * 60000


def dump(volume_l, floor_m2, valve_mm, cd=0.6):
    """Peak in L/min, minutes until empty."""
    level = volume_l / 1000 / floor_m2
    a = math.pi / 4 * (valve_mm / 1000) ** 2
    peak = cd * a * math.sqrt(2 * G * level)
    # h = x^2 takes the root out of the integrand.
    seconds, _ = quad(lambda x: floor_m2 * 2 * x / (cd * a * math.sqrt(2 * G) * x), 0, math.sqrt(level))
    return peak * 60000, seconds / 60


def normal(actual_l_min, t_c, kpa):
    return actual_l_min * 273.15 / (t_c + 273.15) * kpa / 101.325


def neutralised(litres, acid_share, acid_rho, metal, mg_l, stock_share, stock_rho):
    """Litres of stock, kg of NaOH."""
    acid = litres * acid_rho * 1000 * acid_share / 98.072
    moles = 2 * acid + 2 * litres * mg_l / 1000 / M[metal]
    kg = moles * 39.997 / 1000
    return kg / stock_share / stock_rho, kg


# --- A ------------------------------------------------------------------------------------------------------------
print("A. Alder Row")
cu = {"Cu": (1.0, 2, 8.96)}
wafers = [(2, 100, 4, 0.30, 10, 1.5), (4, 150, 4, 0.20, 20, 3.0)]
grams = minutes = 0.0
for n, diameter, edge, share, microns, _ in wafers:
    a = area(diameter, edge, share)
    mass, charge = plated(a, microns, cu)
    amps = 2 * a * 100
    grams += n * mass
    minutes += n * (charge / 0.98 / amps / 60 + 6)
show("A copper plated a day", grams, "g")
show("A chambers before rounding", minutes / (8 * 60 * 0.80))
drag = sum(n * d for n, *_, d in wafers) / 1000  # L/day
show("A copper dragged out a day", drag * 40, "g")
per = drag / 6 * 1000  # mL a wafer
c1, on1 = rinse(1, 40000, per / 1000, 0.5)
c2, on2 = rinse(2, on1, per / 1000, 3.0)
show("A first rinse", c1, "mg/L")
show("A second rinse", c2, "mg/L")
show("A last stage", on2, "mg/L")
show("A metal away on wafers", on2 * drag, "mg/day")
a_day = 6 * 0.5 + 40 / 180
show("A drum, without samples", 180 / a_day, "days")
show("A drum, with samples of 0.02 L/day", 180 / (a_day + 0.02), "days")
show("A copper in a full drum", (6 * 0.5 * c1 / 1000 + (40 / 180 + 0.02) * 40) * 180 / (a_day + 0.02) / 1000, "kg")
show("A mass of a full drum", 180 * 1.02 + 9, "kg")
show("A drums a year", 220 * (a_day + 0.02) / 180)
show("A fall needed", 4000 / 48, "mm")
show("A fall to spare", 120 - 4000 / 48, "mm")
show("A drain at half depth", manning(50, 0.5, 1 / 48, 0.009), "L/min")
peak, minutes = dump(40, 0.12, 15)
show("A dump peak", peak, "L/min")
show("A dump time", minutes, "min")
p, v, re = line(0.30, 4, 3.0, 1.2, 4, 1170, 1.6)
show("A dip tube pressure", p, "kPa")
show("A dip tube velocity", v, "m/s")
show("A dip tube Reynolds", re)
litres, kg = neutralised(10, 0.05, 1.032, "Cu", 20, 0.10, 1.109)
show("A caustic a batch", litres, "L")
show("A caustic a day of service", litres / 5, "L")
show("A caustic a day, pure", kg / 5, "kg")
show("A acid out of the bath, and in the dip", (drag + 40 / 180 + 0.02) * 2.447 + 10 / 5 * 1.052, "eq/day")
show("A water that ends in the drum", a_day + 0.02, "L/day")
show("A exhaust", 3600 * (0.5 * 0.08 + 0.4 * 0.20), "m3/h")
show("A rinse water a day", 6 * 3.5, "L")

# --- B ------------------------------------------------------------------------------------------------------------
print("B. Heron Mere")
for name, microns, j, eff, deposit in [
    ("nickel", 2, 2, 0.95, {"Ni": (1.0, 2, 8.90)}),
    ("gold", 3, 0.5, 0.98, {"Au": (1.0, 1, 19.3)}),
]:
    a = area(150, 3, 0.25)
    mass, charge = plated(a, microns, deposit)
    t = charge / eff / (j * a * 100) / 60
    show(f"B {name} plated a day", 96 * mass, "g")
    show(f"B {name} chambers before rounding", 96 * (t + 3) / (16 * 60 * 0.85))
drag = 96 * 0.8 / 1000
gold = drag * 12
show("B gold dragged out a day", gold, "g")
show("B gold dragged out a year", gold * 250, "g")
show("B worth of it a year", gold * 250 / 1000 * 62000, "cr")
g1, gon1 = rinse(1, 12000, 0.0008, 0.6)
g2, gon2 = rinse(2, gon1, 0.0008, 0.5)
show("B gold first rinse", g1, "mg/L")
show("B gold to the drain a day, as typed", 96 * 0.6 * g1 / 1000, "g")
nickel_of_chloride = 8 * M["Ni"] / 237.691
for label, c0 in [("as the scenario has it", 80.0), ("with that of the chloride", 80 + nickel_of_chloride)]:
    n1, non1 = rinse(1, c0 * 1000, 0.0008, 2.0)
    n2, non2 = rinse(2, non1, 0.0008, 1.5)
    grams = 96 * (2.0 * n1 + 1.5 * n2) / 1000
    show(f"B nickel first rinse, {label}", n1, "mg/L")
    show(f"B nickel on the dilute route, {label}", grams, "g/day")
    show(f"B mean of the dilute route, {label}", grams / (96 * 3.5) * 1000, "mg/L")
    show(f"B column lasts, {label}", 20 * 1.2 * 0.6 / (grams / (M["Ni"] / 2)), "days")
show("B pump runs a day", 96 * 3.5 / 120, "h")
show("B service rate", 120 / 20, "BV/h")
show("B reclaim tank as typed, without samples", 900 / (96 * 0.5 + 60 / 240), "days")
show("B reclaim tank as typed", 900 / (96 * 0.5 + 60 / 240 + 0.05), "days")
show("B reclaim tank cured, without samples", 900 / (96 * 1.1 + 60 / 240), "days")
show("B reclaim tank cured", 900 / (96 * 1.1 + 60 / 240 + 0.05), "days")
show("B gold in a full reclaim tank, cured", (96 * (0.6 * g1 + 0.5 * g2) / 1000 + (60 / 240 + 0.05) * 12)
     * 900 / (96 * 1.1 + 60 / 240 + 0.05), "g")
show("B concentrate drum, without samples", 108 / (80 / 365), "days")
show("B concentrate drum", 108 / (80 / 365 + 0.05), "days")
show("B fall needed", 12000 / 48, "mm")
peak, minutes = dump(80, 0.20, 20)
show("B dump peak", peak, "L/min")
for name, args in [("nickel", (8, 12.7, 15, 3, 9, 1540, 3.5)), ("gold", (0.8, 6.4, 15, 3, 9, 1220, 1.8))]:
    p, v, re = line(*args)
    show(f"B {name} line pressure", p, "kPa")
    show(f"B {name} line Reynolds", re)
show("B rise of nickel concentrate", 1540 * G * 3 / 1000, "kPa")
show("B rise of water", 998.2 * G * 3 / 1000, "kPa")
litres, kg = neutralised(10, 0.05, 1.032, "Ni", 30, 0.25, 1.27)
show("B caustic a day, all nickel falling", litres, "L")
litres, kg = neutralised(10, 0.05, 1.032, "Ni", 0, 0.25, 1.27)
show("B caustic a day, no nickel falling", litres, "L")

show("B acid less base",
     (drag + 80 / 365 + 0.05) * 1e-4 + 10 * 1.052 - (60 / 240 + 0.05) * 0.020 - 96 * 0.6 * 27e-6, "eq/day")
show("B water that ends in drum and tank", 80 / 365 + 0.05 + 96 * 1.1 + 60 / 240 + 0.05, "L/day")

# --- C ------------------------------------------------------------------------------------------------------------
print("C. Gannet Point")
tin = {"Sn": (0.98, 2, 7.29), "Ag": (0.02, 1, 10.5)}
for name, microns, j, eff, deposit in [
    ("copper", 30, 8, 0.98, cu),
    ("nickel", 3, 5, 0.95, {"Ni": (1.0, 2, 8.90)}),
    ("tin-silver", 20, 4, 0.95, tin),
]:
    a = area(300, 3, 0.15)
    mass, charge = plated(a, microns, deposit)
    t = charge / eff / (j * a * 100) / 60
    show(f"C {name} plated a day", 480 * mass, "g")
    show(f"C {name} chambers before rounding", 480 * (t + 2.5) / (24 * 60 * 0.88))
mass, _ = plated(area(300, 3, 0.15), 30, cu)
show("C copper turned over in", 250 * 50 / (480 * mass), "days")
w = 480
cu1, cuon = rinse(1, 50000, 0.0015, 1.0)
cu2, _ = rinse(2, cuon, 0.0015, 2.0)
ni1, nion = rinse(1, 80000, 0.0015, 2.5)
ni2, _ = rinse(2, nion, 0.0015, 2.0)
sn1, snon = rinse(1, 60000, 0.0015, 0.25)
sn2, _ = rinse(2, snon, 0.0015, 2.0)
ag1, agon = rinse(1, 900, 0.0015, 0.25)
ag2, _ = rinse(2, agon, 0.0015, 2.0)
show("C copper first rinse", cu1, "mg/L")
show("C water that brings it to 60 mg/L", 0.0015 * (50000 - 60) / 60, "L")
show("C drag-out that brings it to 60 mg/L", 60 * 1.0 / (50000 - 60) * 1000, "mL")
volume = w * (1 + 2 + 2.5 + 2 + 2)
grams = {"Cu": w * (cu1 + 2 * cu2) / 1000, "Ni": w * (2.5 * ni1 + 2 * ni2) / 1000,
         "Sn": w * 2 * sn2 / 1000, "Ag": w * 2 * ag2 / 1000}
show("C dilute route", volume, "L/day")
for metal, m in grams.items():
    show(f"C dilute route, {metal}", m, "g/day")
    show(f"C dilute route, {metal}, mean", m / volume * 1000, "mg/L")
show("C dilute route mixed", sum(grams.values()) / volume * 1000, "mg/L")
z = {"Cu": 2, "Ni": 2, "Sn": 2, "Ag": 1}
load = sum(m / M[metal] * z[metal] for metal, m in grams.items())
show("C load of the column", load, "eq/day")
show("C column lasts", 100 * 1.2 * 0.6 / load, "days")
show("C pump runs a day", volume / 800, "h")
held = {metal: m - min(m / volume * 1000, 1.0) * volume / 1000 for metal, m in grams.items()}
for metal, m in held.items():
    show(f"C held, {metal}", m, "g/day")
dumps = 250 / 120 + 200 / 300 + 200 / 60
samples = 0.5 + 0.3 + 0.3
show("C concentrate tank, without samples", 900 / (w * 0.25 + dumps), "days")
show("C concentrate tank", 900 / (w * 0.25 + dumps + samples), "days")
show("C the same with the copper first rinse", 900 / (w * 1.25 + dumps + samples), "days")
show("C calendar", 900 / (w * 0.25 + dumps + samples) * 365 / 350, "days")
show("C fall needed", 28000 / 48, "mm")
show("C fall short", 28000 / 48 - 300, "mm")
show("C furthest run", 0.3 * 48, "m")
show("C fall needed to the tank", 6000 / 48, "mm")
show("C drain at half depth", manning(75, 0.5, 1 / 48, 0.009), "L/min")
show("C lift between levels", 60 * (60 / 10) / 4, "L")
show("C mean inflow", volume / 1440, "L/min")
show("C ride-through at the peak", 75 / 25, "min")
show("C ride-through at the mean", 75 / (volume / 1440), "min")
lost, v, re = friction(60, 32, 30, 12, 1000, 1.0)
show("C discharge head", 1.5 + lost / 1000 / G, "m")
show("C discharge velocity", v, "m/s")
actual = 60 * (300 + 101.325) / 101.325
show("C air of the lift, the room's", actual, "L/min")
show("C air of the lift, normal", normal(actual, 21, 101.325), "NL/min")
peak, minutes = dump(250, 0.50, 25)
show("C copper bath let out, peak", peak, "L/min")
show("C copper bath let out, time", minutes, "min")
level, valve = 0.5, math.pi / 4 * 0.025**2 * 0.6
spare = (60 - volume / 1440) / 60000
hist = solve_ivp(lambda t, y: [-valve * math.sqrt(max(2 * G * y[0], 0)) / 0.5,
                               max(valve * math.sqrt(max(2 * G * y[0], 0)) - spare, 0)],
                 [0, 1200], [level, 0.0], rtol=1e-10, atol=1e-12, max_step=0.5)
show("C stored in the lift while it is let out", hist.y[1][-1] * 1000, "L")
for name, args in [("acid", (18, 19, 60, 8, 14, 1395, 3.8)), ("copper", (20, 19, 60, 8, 14, 1180, 1.7))]:
    p, v, re = line(*args)
    show(f"C {name} line pressure", p, "kPa")
    show(f"C {name} line velocity", v, "m/s")
    show(f"C {name} line Reynolds", re)
    show(f"C {name} line, friction against water's",
         friction(*[args[k] for k in (0, 1, 2, 4, 5, 6)])[0] / friction(args[0], args[1], args[2], args[4], 998.2, 1.002)[0])
show("C acid line holds", math.pi / 4 * 1.9**2 * 6000 / 1000, "L")
show("C fill of 31 L", 31 / 18, "min")
litres, kg = neutralised(60, 0.03, 1.018, "Cu", 50, 0.25, 1.27)
show("C caustic a day", litres, "L")
show("C caustic a day, pure", kg, "kg")
show("C acid out of the baths, and in the cell clean",
     (w * 0.0015 + 250 / 120 + 0.5) * 2.039 + (w * 0.0015 + 200 / 300 + 0.3) * 1e-4
     + (w * 0.0015 + 200 / 60 + 0.3) * 1.249 + 60 * 0.623, "eq/day")
show("C caustic a day, as equivalents", kg / 39.997 * 1000, "eq/day")
show("C exhaust", 3600 * (0.4 * 0.06 * 16 + 0.5 * 0.30 * 3 + 0.5 * 0.25), "m3/h")
show("C nitrogen, peak", 4 * 100 + 10, "NL/min")
show("C rinse water a day", w * (1 + 2 + 2.5 + 2 + 0.25 + 2), "L")

"""Works the rows of evidence that name iapws or fluids again with those libraries, and says where they differ.

Usage: independent.py FOLDER, the folder that holds a folder for each law. Every row is worked from what stands in the row
alone; nothing of the program is asked. Ends with 1 where a row differs by more than its own tolerance, or where no row was
found, so that a renamed column cannot pass for agreement.
"""

import csv
import math
import pathlib
import sys

import fluids
import iapws
from fluids.safety_valve import API520_A_steam

PSI = 6894.757293168361
BTU_LB = 2326.0
CU_FT_LB = 0.3048**3 / 0.45359237
SQ_IN = 0.0254**2
LB_H = 0.45359237 / 3600


def number(text, unit):
    """The figure before a unit, which must be the one expected."""
    figure, _, said = text.partition(" ")
    if said.strip() != unit:
        raise ValueError(f"{text}: {unit} was expected")
    return float(figure)


def atmosphere(given):
    """Absolute pressure of the air in pascals, as given or by the standard atmosphere at a height."""
    if "atmosphere" in given:
        return number(given["atmosphere"], "psia") * PSI
    metres = number(given["altitude"], "ft") * 0.3048
    # The standard counts in geopotential height: U.S. Standard Atmosphere, 1976, with its own radius of the earth.
    metres = 6356766 * metres / (6356766 + metres)
    return 101325 * (1 - 0.0065 * metres / 288.15) ** (9.80665 * 0.0289644 / (8.31432 * 0.0065))


def saturation(given, result):
    """Saturated water and steam at a pressure by the gauge."""
    pascals = number(given["pressure"], "psig") * PSI + atmosphere(given)
    if result == "absolute":
        return pascals / PSI, "psia"
    water, steam = (iapws.IAPWS97(P=pascals / 1e6, x=x) for x in (0, 1))
    return {
        "temperature": ((steam.T - 273.15) * 1.8 + 32, "F"),
        "v_f": (water.v / CU_FT_LB, "cu ft/lb"),
        "v_g": (steam.v / CU_FT_LB, "cu ft/lb"),
        "h_f": (water.h * 1000 / BTU_LB, "Btu/lb"),
        "h_g": (steam.h * 1000 / BTU_LB, "Btu/lb"),
        "h_fg": ((steam.h - water.h) * 1000 / BTU_LB, "Btu/lb"),
    }[result]


def pipe(given, result):
    """Babcock's rule, with the room that the library says the steam takes."""
    absolute = number(given["pressure"], "psig") * PSI + atmosphere(given)
    room = iapws.IAPWS97(P=absolute / 1e6, x=1).v / CU_FT_LB
    bore, length = number(given["bore"], "in"), number(given["length"], "ft")
    drop = number(given["drop"], "psi")
    minute = 87 * math.sqrt(drop / room * bore**5 / ((1 + 3.6 / bore) * length))
    return {
        "flow": (60 * minute, "lb/h"),
        "speed": (minute * room / (math.pi * bore**2 / 576), "ft/min"),
    }[result]


def stamp(given, result):
    """Area of a safety valve for a flow, every factor 1, by API RP 520."""
    if result != "coefficient_area":
        raise ValueError(result)
    air = atmosphere(given)
    over = float(given["overpressure"].rstrip("%")) / 100
    relieving = number(given["set_pressure"], "psig") * PSI * (1 + over) + air
    flow = number(given["stamped"], "lb/h") * LB_H
    kelvin = iapws.IAPWS97(P=relieving / 1e6, x=1).T
    return API520_A_steam(m=flow, T=kelvin, P1=relieving, Kd=1, Kb=1, Kc=1) / SQ_IN, "sq in"


LAWS = {"steam_saturation": saturation, "steam_pipe": pipe, "steam_valve_stamp": stamp}


def main(folder):
    print(f"iapws {iapws.__version__}, fluids {fluids.__version__}")
    wrong = 0
    for law, work in LAWS.items():
        worked = 0
        with open(pathlib.Path(folder) / law / "evidence.csv", newline="") as rows:
            for row in csv.DictReader(rows):
                if not row["source"].startswith(("iapws", "fluids")):
                    continue
                given = dict(pair.split("=", 1) for pair in row["inputs"].split("; "))
                found, unit = work(given, row["result"])
                stands = number(row["printed"], unit)
                worked += 1
                if abs(found - stands) > float(row["tolerance"]):
                    wrong += 1
                    print(f"{law}: {row['inputs']}: {row['result']} is {found}, the row has {row['printed']}")
        print(f"{law}: {worked} rows worked again")
        wrong += worked == 0
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1]))

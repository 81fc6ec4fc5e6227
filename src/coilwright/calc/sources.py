"""The published sources the calculations lean on."""

from __future__ import annotations

from coilwright.values import source as base
from coilwright.values.source import Grade, Source

SLOPE = Source("right triangle of rise, run and slope", Grade.GEOMETRY)
PLANE_GEOMETRY = Source("plane geometry", Grade.GEOMETRY)
HIP_ROOF = Source("equal-pitch hip roof in plan: hips run at 45°", Grade.GEOMETRY)
SHOELACE = Source("polygon area by its corners (shoelace)", Grade.GEOMETRY)
STRIP = Source("coverage plus the metal the legs take up", Grade.GEOMETRY)
WOUND_STRIP = Source("wound-strip geometry: turns × mean circumference", Grade.GEOMETRY)
MASS = Source("density × volume", Grade.GEOMETRY)
SHARE = Source("the shortest a coil may come must still cover the need", Grade.GEOMETRY)
STATICS = Source("statics", Grade.GEOMETRY)
EXPANSION = Source("linear thermal expansion", Grade.GEOMETRY)

EN_COATING = Source("EN 10346: g/m² of both sides together (mass); 3.75 and 7.14 g/cm³ (thickness)",
                    Grade.MEMORY)
EN_BARE_COATING = Source("EN 508-1: AZ185 on bare roofs, AZ150 under paint", Grade.MEMORY)
ZINC_COATING = Source("GalvInfoNote 1.1 (mass); zinc at 7.14 g/cm³ (thickness)", Grade.COPY)
AL_ZN_COATING = Source("ASTM A792 (mass); 3.75 g/cm³ (thickness)", Grade.MEMORY)

GAUGE_MSG = Source("Manufacturers' Standard Gauge: 41.82 lb/ft² per inch, GNU units 2.22",
                   Grade.PUBLISHED)
GAUGE_GALVANIZED = Source("SMACNA galvanized sheet table, based on ASTM A924/A653", Grade.COPY)
GAUGE_US = Source("US Standard Gauge, 15 U.S.C. 206", Grade.COPY)
GAUGE_AWG = Source("AWG (Brown & Sharpe), Machinery's Handbook", Grade.COPY)
COPPER_OUNCES = Source(
    "ASTM B370 nominal thicknesses; within 0.0003 in of GNU units 2.22 at 8.89 g/cm³",
    Grade.MEMORY,
)

COATED_SHEET_AL_ZN = Source("ASTM A792, named by IBC Table 1507.4.3(1) for AZ50; metric numbers",
                            Grade.MEMORY)
COATED_SHEET_ZINC = Source("ASTM A653/A653M: G and Z numbers; named for G90 by the model code",
                           Grade.COPY)
ZINC_GAUGE = Source("the zinc gauge, which rises with the thickness", Grade.MEMORY)
DARK_HEAT = Source("hottest metal that designers take for dark roofs", Grade.MEMORY)

LOW_SLOPE = Source("IBC 1507.4.2 / IRC R905.10.2: standing seam not under 1/4:12", Grade.COPY)
CRICKET = Source("IRC R1003.20: a cricket behind a chimney wider than 30 in", Grade.MEMORY)
CODE_COATING = Source("IBC Table 1507.4.3(1), read for AZ50; for G90", Grade.MEMORY)
THICKNESS_ORDERING = Source("Canadian Roofing Reference Manual 10.2", Grade.PUBLISHED)
SLINGS = Source("US rule 29 CFR 1926.251 and the sling's own tag", Grade.PUBLISHED)

ARITHMETIC = base.ARITHMETIC
WATER_SHEDDING = Source("Professional Roofing, October 2002: water-shedding panels from 3:12",
                        Grade.PUBLISHED)
WATER_BARRIER = Source("Professional Roofing, October 2002: water-barrier panels from 1/2:12",
                       Grade.PUBLISHED)
SHEDDING_NEEDS_DECK = Source(
    "Professional Roofing, October 2002: water-shedding panels lie on a deck", Grade.PUBLISHED
)
ROOF_HEAT = Source("a 1920s copper flashing manual: roof surface from -20 to 150 °F",
                   Grade.PUBLISHED)
CALENDAR = Source("counted by the calendar", Grade.GEOMETRY)
BEFORE_COATING = Source("UFGS 07412 para 2.1.1: panel thickness stated before coating",
                        Grade.PUBLISHED)
BARE_COATING = Source("UFGS 07412: AZ50 only where factory painted, else AZ55", Grade.PUBLISHED)
TRADE = base.PRACTICE

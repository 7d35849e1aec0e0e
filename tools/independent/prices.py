"""(28) Residential electricity, cents per kWh, 2023: EIA Electric Power Annual, table of states."""

STATES = """
AL 14.63  AK 23.90  AZ 14.02  AR 12.25  CA 29.51  CO 14.30  CT 29.88  DE 15.73  DC 16.45  FL 15.21  GA 13.69  HI 42.39
ID 11.05  IL 15.71  IN 14.94  IA 13.31  KS 13.38  KY 12.65  LA 11.55  ME 27.42  MD 16.60  MA 29.61  MI 18.84  MN 14.73
MS 13.23  MO 12.58  MT 12.54  NE 11.20  NV 16.67  NH 28.15  NJ 17.70  NM 13.85  NY 22.25  NC 12.93  ND 11.01  OH 15.38
OK 12.08  OR 12.73  PA 18.10  RI 27.02  SC 13.68  SD 12.32  TN 12.19  TX 14.46  UT 11.20  VT 20.82  VA 14.26  WA 10.98
WV 14.05  WI 16.88  WY 11.3
"""
COUNTRY = 16.0  # where no state is known
INSTALLED = {"direct": 3500.0, "indirect": 5500.0, "two-stage": 7000.0}  # a cooler of each kind


def electricity(state):
    """Price per kWh in a state of the United States, by its two letters."""
    words = STATES.split()
    return float(dict(zip(words[::2], words[1::2])).get(state, COUNTRY)) / 100

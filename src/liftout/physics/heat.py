"""Heat carried by a flow, and how much of it an exchanger passes on.

The tail exchanger of a cooler rejects the cooling effect and the electrical power: a balance for the caller to draw.
"""

from __future__ import annotations

import math


def heat_flow_w(density_kg_m3: float, flow_m3_s: float, specific_heat_j_kg_k: float, difference_k: float) -> float:
    """Heat that a flow carries, Q = rho V cp dT.

    Args:
        density_kg_m3: density.
        flow_m3_s: volume flow.
        specific_heat_j_kg_k: specific heat.
        difference_k: temperature difference between in and out.

    Example (the trade's 500 rule: one US gal/min of water through 10 °F is 5000 Btu/h):
        >>> round(heat_flow_w(998.2, 6.30902e-5, 4186.8, 10 / 1.8) / 0.29307107)
        4998
    """
    return density_kg_m3 * flow_m3_s * specific_heat_j_kg_k * difference_k


def flow_for_heat_m3_s(heat_w: float, density_kg_m3: float, specific_heat_j_kg_k: float, difference_k: float) -> float:
    """Volume flow that carries a heat, V = Q / (rho cp dT).

    Args:
        heat_w: heat.
        density_kg_m3: density.
        specific_heat_j_kg_k: specific heat.
        difference_k: temperature difference between in and out.

    Example:
        >>> round(flow_for_heat_m3_s(2500.0, 1051.861, 3519.02, 8.0) * 60e3, 4)
        5.0655
    """
    return heat_w / (density_kg_m3 * specific_heat_j_kg_k * difference_k)


def cross_flow_effectiveness(transfer_units: float, capacity_ratio: float, outer_exponent: float, inner_exponent: float) -> float:
    """Effectiveness of a cross-flow exchanger, both streams unmixed, e = 1 - exp(NTU^a/C (exp(-C NTU^b) - 1)).

    The approximation of the textbooks (a 0.22, b 0.78), within one per cent of the exact series.

    Args:
        transfer_units: NTU, above zero.
        capacity_ratio: smaller heat capacity flow over the larger, above zero, at most 1.
        outer_exponent: a.
        inner_exponent: b.

    Example:
        >>> round(cross_flow_effectiveness(2.1, 0.45, 0.22, 0.78), 3)
        0.764
    """
    inner = math.exp(-capacity_ratio * transfer_units**inner_exponent) - 1
    return 1 - math.exp(transfer_units**outer_exponent / capacity_ratio * inner)

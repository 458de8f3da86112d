"""A wall-hung WC: a pan on a frame with a concealed cistern."""

from __future__ import annotations

from tundish.figure import Figure
from tundish.layout.appliances.kind import Hung, Kind
from tundish.layout.makers import size


def figures(hung: Hung, shared: dict[str, Figure]) -> dict[str, Figure]:
    """Outlet and flush inlet by their fixed distances from the studs (EN 33), the seat, the plate, the cistern's supply, what is cut."""
    ware, frame, name, studs = hung.ware, hung.frame, hung.name, shared["studs"]
    thickness = hung.outline.covering.thickness
    made = {
        "outlet": (studs - size(ware, "studs_to_outlet", "Studs down to outlet")).named(f"Outlet, {name}"),
        "inlet": (studs + size(ware, "studs_to_inlet", "Studs up to flush inlet")).named(f"Flush inlet, {name}"),
        "supply": hung.height(_inlet(hung), "Cistern inlet"),
        "outlet_cut": (
            thickness + size(frame, "outlet_socket", "Into the frame's bend") + size(ware, "outlet_insertion", "Into the pan's outlet")
        ).named(f"Outlet piece, {name}"),
        "inlet_cut": (
            thickness + size(frame, "inlet_socket", "Into the flush bend") + size(ware, "inlet_insertion", "Into the pan's inlet")
        ).named(f"Flush piece, {name}"),
    }
    if hung.choice.plate_on != "shelf":
        made["plate"] = hung.height("plate_at", "Flush plate")
    elif hung.outline.shelf:
        made["shelf_plate"] = hung.outline.tops.prewall.named(f"Flush plate on the shelf, {name}")
        sheet = frame.has("plate_back")
        back = size(frame, "plate_back", "Frame front back to the plate's middle") if sheet else hung.book.figure("frames.plate_back")
        made["shelf_plate_out"] = (hung.outline.depth - back).named(f"Wall to the middle of the flush plate, {name}")
    if hung.seat is not None:
        made["seat"] = (shared["top"] + size(hung.seat, "thickness", "Seat")).named(f"Seat, {name}")
    return made


def _inlet(hung: Hung) -> str:
    """The size of the frame that gives the height of the inlet: at its back, or at its top where it is fed there and its sheet says so."""
    return "cistern_top_inlet_at" if hung.choice.fed_from == "top" and hung.frame.has("cistern_top_inlet_at") else "cistern_inlet_at"


KIND = Kind(
    key="wc",
    title="WC",
    ware="wc pan",
    frame="wc frame",
    top="Top of pan",
    studs="Fixing studs",
    ends=("soil", "cold"),
    own=figures,
    ware_sizes=("studs_to_outlet", "studs_to_inlet", "outlet_insertion", "inlet_insertion"),
    frame_sizes=("plate_at", "cistern_inlet_at", "outlet_socket", "inlet_socket"),
    extras=(("seat", "seat"), ("plate", "flush plate")),
    plain="WC",
    many="WCs",
    agreed="Top of the WC pan",
    collars=("pipe collar 50", "pipe collar 110"),
    hangs=350.0,
    rod=(
        ("shelf_plate", "Flush plate on the shelf"),
        ("plate", "Flush plate"),
        ("inlet", "Flush inlet"),
        ("top", "Top of pan"),
        ("studs", "Fixing studs"),
        ("outlet", "Outlet"),
    ),
    fixing_set="fixing set M12",
)

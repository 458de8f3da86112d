"""The rule book: every rule there is, by family and name. A new rule is a file, one line of import and one line in the list."""

from __future__ import annotations

from typing import Final

from tundish.rules.boards.board import board
from tundish.rules.boards.centres import centres
from tundish.rules.boards.hatches import hatches
from tundish.rules.boards.joint_tape import joint_tape
from tundish.rules.boards.screws import screws
from tundish.rules.boards.tanking import tanking
from tundish.rules.closing.build_up import build_up_confirmed
from tundish.rules.closing.fall import fall_proven
from tundish.rules.closing.fixings import fixings_chosen
from tundish.rules.closing.flush_plate import flush_plate_chosen
from tundish.rules.closing.heights import heights_agreed
from tundish.rules.closing.pressure_test import pressure_tested
from tundish.rules.closing.rails import rails_backed
from tundish.rules.closing.reach import can_be_reached
from tundish.rules.closing.sizes import sizes_confirmed
from tundish.rules.closing.soil_test import soil_tested
from tundish.rules.closing.trial_fit import trial_fitted
from tundish.rules.drainage.boss import boss
from tundish.rules.drainage.boss_strap import boss_strap
from tundish.rules.drainage.branch import branch
from tundish.rules.drainage.branch_fall import branch_fall
from tundish.rules.drainage.branch_length import branch_length
from tundish.rules.drainage.entry import entry
from tundish.rules.drainage.opposed import opposed
from tundish.rules.drainage.plugs import plugs
from tundish.rules.drainage.seals import seals
from tundish.rules.drainage.sleeves import sleeves
from tundish.rules.drainage.soil_clips import soil_clips
from tundish.rules.drainage.stack import stack
from tundish.rules.drainage.stack_flow import stack_flow
from tundish.rules.drainage.traps import traps
from tundish.rules.drainage.vents import vents
from tundish.rules.drainage.waste import waste
from tundish.rules.drainage.waste_clips import waste_clips
from tundish.rules.drainage.waste_fall import waste_fall
from tundish.rules.drainage.waste_length import waste_length
from tundish.rules.ends.joined import ends_joined
from tundish.rules.fixings.anchor_places import anchor_places
from tundish.rules.fixings.bars import bar_fixings
from tundish.rules.fixings.feet import foot_fixings
from tundish.rules.fixings.floor_rails import floor_rail_fixings
from tundish.rules.fixings.tie_rods import tie_rod_fixings
from tundish.rules.fixings.ties import tie_fixings
from tundish.rules.fixings.timber_screws import timber_screws
from tundish.rules.fixings.wall_strut import wall_strut_fixings
from tundish.rules.frames.bars import bars
from tundish.rules.frames.brackets import brackets as wall_brackets
from tundish.rules.frames.depth import depth
from tundish.rules.frames.feet_travel import feet_travel
from tundish.rules.frames.fixing_sets import fixing_sets
from tundish.rules.frames.frame import frame
from tundish.rules.frames.height import height
from tundish.rules.frames.neighbours import neighbours
from tundish.rules.frames.packers import packers
from tundish.rules.frames.pads import pads
from tundish.rules.frames.plate import plate
from tundish.rules.frames.plate_on_shelf import plate_on_shelf
from tundish.rules.frames.rail_backing import rail_backing
from tundish.rules.frames.rails import rails
from tundish.rules.frames.reach import reach
from tundish.rules.frames.side import side
from tundish.rules.frames.slider import slider
from tundish.rules.frames.spacing import spacing
from tundish.rules.frames.spreader_plates import spreader_plates
from tundish.rules.frames.tie_rods import tie_rods
from tundish.rules.frames.ware import ware
from tundish.rules.labour.boarding import boarding
from tundish.rules.labour.first_fix import first_fix
from tundish.rules.labour.floor_tiling import floor_tiling
from tundish.rules.labour.frames import frames
from tundish.rules.labour.making_good import making_good
from tundish.rules.labour.second_fix import second_fix
from tundish.rules.labour.strip_out import strip_out
from tundish.rules.loads.feet import feet
from tundish.rules.loads.overturning import overturning
from tundish.rules.loads.strut import wall_strut_bends
from tundish.rules.loads.tiles import tiles_on_board
from tundish.rules.loads.wall_noggins import noggins_hold
from tundish.rules.loads.wall_ply import ply_holds
from tundish.rules.loads.wall_pull import wall_pull
from tundish.rules.loads.wall_studs import wall_studs_to_reach
from tundish.rules.noise.bridges import bridges
from tundish.rules.noise.strip import strip
from tundish.rules.prewall.brackets import brackets
from tundish.rules.prewall.capping import capping
from tundish.rules.prewall.closing_battens import closing_battens
from tundish.rules.prewall.corner_struts import corner_struts
from tundish.rules.prewall.crossings import crossings
from tundish.rules.prewall.feet import deep_feet
from tundish.rules.prewall.fits import fits
from tundish.rules.prewall.floor_noggins import floor_noggins
from tundish.rules.prewall.in_corner import in_corner
from tundish.rules.prewall.joins import joins
from tundish.rules.prewall.moved import moved
from tundish.rules.prewall.noggins import noggins
from tundish.rules.prewall.nuts import nuts
from tundish.rules.prewall.recesses import recesses
from tundish.rules.prewall.runs_into import runs_into
from tundish.rules.prewall.steel import steel
from tundish.rules.prewall.struts_behind import struts_behind
from tundish.rules.prewall.timber import timber
from tundish.rules.prewall.void import void
from tundish.rules.prewall.wall_noggins import wall_noggins
from tundish.rules.prewall.wall_ply import wall_ply
from tundish.rules.prewall.wall_strut import wall_strut
from tundish.rules.rule import Rule
from tundish.rules.safety.asbestos import asbestos
from tundish.rules.safety.backflow import backflow
from tundish.rules.safety.electrical_zones import electrical_zones
from tundish.rules.safety.electrics_behind import electrics_behind
from tundish.rules.safety.hidden_cables import hidden_cables
from tundish.rules.safety.hot_surfaces import hot_surfaces
from tundish.rules.safety.isolation import isolation
from tundish.rules.safety.old_structure import old_structure
from tundish.rules.safety.shared_stack import shared_stack
from tundish.rules.safety.silica_dust import silica_dust
from tundish.rules.safety.through_floor import through_floor
from tundish.rules.safety.through_walls import through_walls
from tundish.rules.safety.weights import weights
from tundish.rules.site.blades import blades
from tundish.rules.site.hire import hire
from tundish.rules.site.protect import protect
from tundish.rules.site.small import small
from tundish.rules.site.waste import rubbish
from tundish.rules.space.access import access
from tundish.rules.space.accessible_basin import accessible_basin
from tundish.rules.space.accessible_wc import accessible_wc
from tundish.rules.space.bath_and_tray import bath_and_tray
from tundish.rules.space.centre_to_wall import centre_to_wall
from tundish.rules.space.door_over_floor import door_over_floor
from tundish.rules.space.door_swing import door_swing
from tundish.rules.space.front import front
from tundish.rules.space.hatch_in_reach import hatch_in_reach
from tundish.rules.space.headroom import headroom
from tundish.rules.space.obstacles import obstacles
from tundish.rules.space.openings import openings
from tundish.rules.space.side_by_side import side_by_side
from tundish.rules.space.turning import turning
from tundish.rules.space.under_slope import under_slope
from tundish.rules.space.visitable import visitable
from tundish.rules.tiling.bed import bed
from tundish.rules.tiling.floor_bed import floor_bed
from tundish.rules.tiling.floor_build_up import floor_build_up
from tundish.rules.tiling.floor_grout import floor_grout
from tundish.rules.tiling.floor_sealant import floor_sealant
from tundish.rules.tiling.floor_tiles import floor_tiles
from tundish.rules.tiling.grout import grout
from tundish.rules.tiling.pipe_seals import pipe_seals
from tundish.rules.tiling.primer import primer
from tundish.rules.tiling.sealant import sealant
from tundish.rules.tiling.spacers import spacers
from tundish.rules.tiling.tiles import wall_tiles
from tundish.rules.tiling.trim import trim
from tundish.rules.water.air_gap import air_gap
from tundish.rules.water.clips import water_clips
from tundish.rules.water.feeds import feeds
from tundish.rules.water.flush import flush
from tundish.rules.water.in_wall import in_wall
from tundish.rules.water.inlets import inlets
from tundish.rules.water.insulation import insulation
from tundish.rules.water.loading import loading
from tundish.rules.water.plates import wall_plates
from tundish.rules.water.plugs import water_plugs
from tundish.rules.water.sleeves import water_sleeves
from tundish.rules.water.solder import solder
from tundish.rules.water.under_floor import under_floor

RULES: Final[tuple[Rule, ...]] = (
    board,
    centres,
    hatches,
    joint_tape,
    screws,
    tanking,
    build_up_confirmed,
    fall_proven,
    fixings_chosen,
    flush_plate_chosen,
    heights_agreed,
    pressure_tested,
    rails_backed,
    can_be_reached,
    sizes_confirmed,
    soil_tested,
    trial_fitted,
    boss,
    boss_strap,
    branch,
    branch_fall,
    branch_length,
    entry,
    opposed,
    plugs,
    seals,
    sleeves,
    soil_clips,
    stack,
    stack_flow,
    traps,
    vents,
    waste,
    waste_clips,
    waste_fall,
    waste_length,
    ends_joined,
    anchor_places,
    bar_fixings,
    foot_fixings,
    floor_rail_fixings,
    tie_rod_fixings,
    tie_fixings,
    timber_screws,
    wall_strut_fixings,
    bars,
    wall_brackets,
    depth,
    feet_travel,
    fixing_sets,
    frame,
    height,
    neighbours,
    packers,
    pads,
    plate,
    plate_on_shelf,
    rail_backing,
    rails,
    reach,
    side,
    slider,
    spacing,
    spreader_plates,
    tie_rods,
    ware,
    boarding,
    first_fix,
    floor_tiling,
    frames,
    making_good,
    second_fix,
    strip_out,
    feet,
    overturning,
    wall_strut_bends,
    tiles_on_board,
    noggins_hold,
    ply_holds,
    wall_pull,
    wall_studs_to_reach,
    bridges,
    strip,
    brackets,
    capping,
    closing_battens,
    corner_struts,
    crossings,
    deep_feet,
    fits,
    floor_noggins,
    in_corner,
    joins,
    moved,
    noggins,
    nuts,
    recesses,
    runs_into,
    steel,
    struts_behind,
    timber,
    void,
    wall_noggins,
    wall_ply,
    wall_strut,
    asbestos,
    backflow,
    electrical_zones,
    electrics_behind,
    hidden_cables,
    hot_surfaces,
    isolation,
    old_structure,
    shared_stack,
    silica_dust,
    through_floor,
    through_walls,
    weights,
    blades,
    hire,
    protect,
    small,
    rubbish,
    access,
    accessible_basin,
    accessible_wc,
    bath_and_tray,
    centre_to_wall,
    door_over_floor,
    door_swing,
    front,
    hatch_in_reach,
    headroom,
    obstacles,
    openings,
    side_by_side,
    turning,
    under_slope,
    visitable,
    bed,
    floor_bed,
    floor_build_up,
    floor_grout,
    floor_sealant,
    floor_tiles,
    grout,
    pipe_seals,
    primer,
    sealant,
    spacers,
    wall_tiles,
    trim,
    air_gap,
    water_clips,
    feeds,
    flush,
    in_wall,
    inlets,
    insulation,
    loading,
    wall_plates,
    water_plugs,
    water_sleeves,
    solder,
    under_floor,
)

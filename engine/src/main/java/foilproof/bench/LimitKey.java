package foilproof.bench;

import foilproof.geom.Dimension;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/**
 * Every limit that a job or a shop file may change under {@code [limits]}: the key is the name in small letters. The
 * defaults are common practice, without a source, unless a check says otherwise; none is a law. Each names the rows
 * of the catalogue of needs that it serves.
 */
public enum LimitKey {
    // Foil and depth
    /** Foil counts as cleared where the cutter goes this far below the foil bottom; 5 um (D1). */
    FOIL_CLEARED(
            Dimension.LENGTH,
            0.005,
            "5 um",
            "D1",
            "foil counts as cleared where the cutter goes this far below the foil bottom"),
    /** Length of groove with foil left from which it is told; 0.2 mm (D1). */
    FOIL_LEFT_LENGTH(Dimension.LENGTH, 0.2, "0.2 mm", "D1", "length of groove with foil left from which it is told"),
    /** Margin of the Z window beyond the stated spread below which a watch is raised; below 0 it is a fix; 0.020 mm (D2). */
    Z_MARGIN(
            Dimension.LENGTH,
            0.020,
            "0.020 mm",
            "D2",
            "margin of the Z window beyond the stated spread below which a watch is raised; below 0 it is a fix"),
    /** Depth below its zero at which a copper-only cutter raises a watch; 0.15 mm (C13). */
    DUTY_WATCH_DEPTH(
            Dimension.LENGTH,
            0.15,
            "0.15 mm",
            "C13",
            "depth below its zero at which a copper-only cutter raises a watch"),
    /** Depth below its zero at which a copper-only cutter raises a fix; 0.30 mm (C13). */
    DUTY_FIX_DEPTH(
            Dimension.LENGTH,
            0.30,
            "0.30 mm",
            "C13",
            "depth below its zero at which a copper-only cutter raises a fix"),
    /** Over-cut below the foil of copper work from which a note is given; 0.20 mm (D4). */
    COPPER_DEPTH_NOTE(
            Dimension.LENGTH,
            0.20,
            "0.20 mm",
            "D4",
            "over-cut below the foil of copper work from which a note is given"),
    /** Share of the blank's thickness that copper work may reach before a watch; 40 % (D4). */
    COPPER_DEPTH_SHARE(
            Dimension.RATIO,
            0.40,
            "40 %",
            "D4",
            "share of the blank's thickness that copper work may reach before a watch"),
    /** Depth of copper work from which a slip of the decimal point is suspected; 0.5 mm (A2). */
    COPPER_DEPTH_SLIP(
            Dimension.LENGTH,
            0.5,
            "0.5 mm",
            "A2",
            "depth of copper work from which a slip of the decimal point is suspected"),
    /** Least depth of the deepest copper cut that fits the declared Z zero; 0.015 mm (B1). */
    COPPER_DEPTH_LEAST(
            Dimension.LENGTH,
            0.015,
            "0.015 mm",
            "B1",
            "least depth of the deepest copper cut that fits the declared Z zero"),
    /** Largest depth of the deepest copper cut that fits the declared Z zero; 0.5 mm (B1). */
    COPPER_DEPTH_MOST(
            Dimension.LENGTH,
            0.5,
            "0.5 mm",
            "B1",
            "largest depth of the deepest copper cut that fits the declared Z zero"),
    /** Step in the finished floor of one groove; 0.03 mm (D5). */
    DEPTH_STEP(Dimension.LENGTH, 0.03, "0.03 mm", "D5", "step in the finished floor of one groove"),
    /** Wanted copper removed beside a plunge; 0.05 mm (D7). */
    PLUNGE_MARK(Dimension.LENGTH, 0.05, "0.05 mm", "D7", "wanted copper removed beside a plunge"),
    /** Material left above the wanted floor, or skin below a through cut; 0.02 mm (D8 H8). */
    FLOOR_LEFT(
            Dimension.LENGTH,
            0.02,
            "0.02 mm",
            "D8 H8",
            "material left above the wanted floor, or skin below a through cut"),
    /** Share of a trace's or land's width that a groove may take; 20 % (D3). */
    WIDTH_LOSS(Dimension.RATIO, 0.20, "20 %", "D3", "share of a trace's or land's width that a groove may take"),
    /** Width that remains below which a watch is raised; 0.20 mm (D3). */
    WIDTH_LEFT_WATCH(Dimension.LENGTH, 0.20, "0.20 mm", "D3", "width that remains below which a watch is raised"),
    /** Width that remains below which a fix is raised; 0.15 mm (D3). */
    WIDTH_LEFT_FIX(Dimension.LENGTH, 0.15, "0.15 mm", "D3", "width that remains below which a fix is raised"),
    // Copper widths and gaps, at the foil bottom
    /** Least trace width: narrower is a watch (0.254 mm, 10 thou, is silent); 0.25 mm (E8 F5). */
    TRACE_WIDTH(
            Dimension.LENGTH,
            0.25,
            "0.25 mm",
            "E8 F5",
            "least trace width: narrower is a watch (0.254 mm, 10 thou, is silent)"),
    /** Trace width below which a fix is raised; 0.15 mm (E8 F5). */
    TRACE_WIDTH_FIX(Dimension.LENGTH, 0.15, "0.15 mm", "E8 F5", "trace width below which a fix is raised"),
    /** Share of the designed width that must remain; 80 % (E8). */
    TRACE_SHARE(Dimension.RATIO, 0.80, "80 %", "E8", "share of the designed width that must remain"),
    /** Copper strip between two grooves narrower than this is a hair; 0.05 mm (F1). */
    HAIR_WIDTH(
            Dimension.LENGTH, 0.05, "0.05 mm", "F1", "copper strip between two grooves narrower than this is a hair"),
    /** Copper strip between two grooves narrower than this is a sliver; 0.15 mm (F1). */
    SLIVER_WIDTH(
            Dimension.LENGTH, 0.15, "0.15 mm", "F1", "copper strip between two grooves narrower than this is a sliver"),
    /** Copper strip between two grooves narrower than this is thin; 0.25 mm (F1). */
    THIN_WIDTH(Dimension.LENGTH, 0.25, "0.25 mm", "F1", "copper strip between two grooves narrower than this is thin"),
    /** Least length of a hair or sliver that is told; 0.5 mm (F1 F2 F6). */
    SLIVER_LENGTH(Dimension.LENGTH, 0.5, "0.5 mm", "F1 F2 F6", "least length of a hair or sliver that is told"),
    /** Width on top below which a strip is a knife edge; 0.005 mm (F2). */
    KNIFE_EDGE_TOP(Dimension.LENGTH, 0.005, "0.005 mm", "F2", "width on top below which a strip is a knife edge"),
    /** Width at the base above which a knife edge is told; 0.01 mm (F2). */
    KNIFE_EDGE_BASE(Dimension.LENGTH, 0.01, "0.01 mm", "F2", "width at the base above which a knife edge is told"),
    /** A hair that is an island smaller than this is raised one grade; 0.1 mm2 (F3). */
    HAIR_ISLAND_AREA(
            Dimension.AREA, 0.1, "0.1 mm2", "F3", "a hair that is an island smaller than this is raised one grade"),
    /** Interior angle of a copper corner below which it is a spike; 30 deg (F6). */
    SPIKE_ANGLE(Dimension.ANGLE, 30, "30 deg", "F6", "interior angle of a copper corner below which it is a spike"),
    /** Width of a spike's tip below which it is told; 0.15 mm (F6). */
    SPIKE_WIDTH(Dimension.LENGTH, 0.15, "0.15 mm", "F6", "width of a spike's tip below which it is told"),
    /** Copper strip between a cut and the edge or a bore below which a watch is raised; 0.25 mm (F7). */
    EDGE_STRIP(
            Dimension.LENGTH,
            0.25,
            "0.25 mm",
            "F7",
            "copper strip between a cut and the edge or a bore below which a watch is raised"),
    /** Copper round a bore below which heat may lift it; 1 mm2 (F9). */
    LIFTING_LAND_AREA(Dimension.AREA, 1, "1 mm2", "F9", "copper round a bore below which heat may lift it"),
    /** Gap at the foil bottom below which a fix is raised; 0.10 mm (E3). */
    NARROW_GAP_FIX(Dimension.LENGTH, 0.10, "0.10 mm", "E3", "gap at the foil bottom below which a fix is raised"),
    /** Gap at the foil bottom below which a watch is raised; 0.15 mm (E3). */
    NARROW_GAP(Dimension.LENGTH, 0.15, "0.15 mm", "E3", "gap at the foil bottom below which a watch is raised"),
    /** Gap beside a land below which a watch is raised; 0.20 mm (E4). */
    LAND_GAP(Dimension.LENGTH, 0.20, "0.20 mm", "E4", "gap beside a land below which a watch is raised"),
    /** Gap beside a hand-soldered through pin below which a watch is raised; 0.25 mm (E4). */
    PIN_GAP(
            Dimension.LENGTH,
            0.25,
            "0.25 mm",
            "E4",
            "gap beside a hand-soldered through pin below which a watch is raised"),
    /** Gap beside copper to be flooded with solder below which a watch is raised; 0.40 mm (J9a). */
    FLOODED_GAP(
            Dimension.LENGTH,
            0.40,
            "0.40 mm",
            "J9a",
            "gap beside copper to be flooded with solder below which a watch is raised"),
    /** Gap beside a high-impedance net below which a note is given; 0.2 mm (E12a). */
    DUST_GAP(Dimension.LENGTH, 0.2, "0.2 mm", "E12a", "gap beside a high-impedance net below which a note is given"),
    /** Copper left in a cleared area from which it is told; 0.02 mm2 (E5). */
    CLEARING_PIECE(Dimension.AREA, 0.02, "0.02 mm2", "E5", "copper left in a cleared area from which it is told"),
    /** Copper without a net smaller than this is debris; 0.5 mm2 (E6). */
    STRAY_AREA(Dimension.AREA, 0.5, "0.5 mm2", "E6", "copper without a net smaller than this is debris"),
    /** Copper smaller than this is a crumb and counts as no piece; 0.01 mm2 (E6 F1). */
    PIECE_AREA(Dimension.AREA, 0.01, "0.01 mm2", "E6 F1", "copper smaller than this is a crumb and counts as no piece"),
    /** Wanted copper missing from this width on; 0.05 mm (E7). */
    GOUGE_WIDTH(Dimension.LENGTH, 0.05, "0.05 mm", "E7", "wanted copper missing from this width on"),
    /** Share of a land's area that must remain; 75 % (E9). */
    LAND_SHARE(Dimension.RATIO, 0.75, "75 %", "E9", "share of a land's area that must remain"),
    /** Ring for hand soldering below which a watch is raised; 0.30 mm (E9 G12). */
    SOLDER_RING(Dimension.LENGTH, 0.30, "0.30 mm", "E9 G12", "ring for hand soldering below which a watch is raised"),
    /** Ring below which a fix is raised; 0.15 mm (E9 G8). */
    RING_FIX(Dimension.LENGTH, 0.15, "0.15 mm", "E9 G8", "ring below which a fix is raised"),
    /** Share of a land's edge joined to large copper from which a note is given; 60 % (E10). */
    THERMAL_SHARE(
            Dimension.RATIO,
            0.60,
            "60 %",
            "E10",
            "share of a land's edge joined to large copper from which a note is given"),
    /** Copper from this area on draws the heat off a land; 200 mm2 (E10). */
    THERMAL_AREA(Dimension.AREA, 200, "200 mm2", "E10", "copper from this area on draws the heat off a land"),
    /** Neck, in widths of the groove, below which two pieces are suspected to be joined by mistake; 1.2 x (J4). */
    BRIDGE_SHARE(
            Dimension.RATIO,
            1.2,
            "1.2 x",
            "J4",
            "neck, in widths of the groove, below which two pieces are suspected to be joined by mistake"),
    /** Least area on both sides of a suspected bridge; 2 mm2 (J4). */
    BRIDGE_AREA(Dimension.AREA, 2, "2 mm2", "J4", "least area on both sides of a suspected bridge"),
    /** Wire that is tried in a hole made with the wrong bit; 0.60 mm (G1). */
    LEAST_WIRE(Dimension.LENGTH, 0.60, "0.60 mm", "G1", "wire that is tried in a hole made with the wrong bit"),
    // Program text and modal state
    /** Ratio of extents between two files from which units are suspected; 23 x (A1). */
    UNITS_RATIO_LEAST(
            Dimension.RATIO, 23, "23 x", "A1", "ratio of extents between two files from which units are suspected"),
    /** Ratio of extents between two files up to which units are suspected; 28 x (A1). */
    UNITS_RATIO_MOST(
            Dimension.RATIO, 28, "28 x", "A1", "ratio of extents between two files up to which units are suspected"),
    /** Volume removed by a rapid from which it is a stop; 0.0005 mm3 (A7). */
    RAPID_VOLUME(Dimension.VOLUME, 0.0005, "0.0005 mm3", "A7", "volume removed by a rapid from which it is a stop"),
    /** Least height of a rapid above the surface; 0.2 mm (A7 B15). */
    RAPID_HEIGHT(Dimension.LENGTH, 0.2, "0.2 mm", "A7 B15", "least height of a rapid above the surface"),
    /** Plunge in material deeper than this is judged by its feed; 0.3 mm (A9). */
    PLUNGE_DEPTH(Dimension.LENGTH, 0.3, "0.3 mm", "A9", "plunge in material deeper than this is judged by its feed"),
    /** Largest plunge feed of a cutter below 1 mm; 300 mm/min (A9). */
    PLUNGE_FEED(Dimension.FEED, 300, "300 mm/min", "A9", "largest plunge feed of a cutter below 1 mm"),
    /** Cutters up to this diameter are small; 1 mm (A9 A10 C5). */
    SMALL_TOOL(Dimension.LENGTH, 1, "1 mm", "A9 A10 C5", "cutters up to this diameter are small"),
    /** Least spindle speed of a small cutter; 15000 rpm (A10). */
    SMALL_TOOL_SPINDLE(Dimension.SPINDLE, 15000, "15000 rpm", "A10", "least spindle speed of a small cutter"),
    /** Least time from spindle start to first contact; 2 s (A11). */
    SPIN_UP(Dimension.TIME, 2, "2 s", "A11", "least time from spindle start to first contact"),
    /** How far a diameter in a comment may differ from the tool's; 10 % (A12). */
    COMMENT_DIAMETER(
            Dimension.RATIO, 0.10, "10 %", "A12", "how far a diameter in a comment may differ from the tool's"),
    /** Difference of an arc's radii from which a watch is raised; 0.002 mm (A14). */
    ARC_RADIUS_WATCH(
            Dimension.LENGTH, 0.002, "0.002 mm", "A14", "difference of an arc's radii from which a watch is raised"),
    /** An arc in radius form this near a half turn raises a watch; 1 deg (A14). */
    ARC_HALF_TURN(Dimension.ANGLE, 1, "1 deg", "A14", "an arc in radius form this near a half turn raises a watch"),
    /** Radius, in lengths of the move before, from which a full circle is suspected; 3 x (A15). */
    ARC_SUSPECT_RATIO(
            Dimension.RATIO,
            3,
            "3 x",
            "A15",
            "radius, in lengths of the move before, from which a full circle is suspected"),
    /** Least height of a cycle's retract above the bow; 0.5 mm (A16). */
    CYCLE_RETRACT(Dimension.LENGTH, 0.5, "0.5 mm", "A16", "least height of a cycle's retract above the bow"),
    /** Largest blending tolerance; 0.02 mm (A18). */
    BLEND(Dimension.LENGTH, 0.02, "0.02 mm", "A18", "largest blending tolerance"),
    /** Largest blending tolerance, in narrowest gaps; 0.2 x (A18). */
    BLEND_SHARE(Dimension.RATIO, 0.2, "0.2 x", "A18", "largest blending tolerance, in narrowest gaps"),
    /** How near a path must match the outline moved twice; 0.05 mm (A17). */
    DOUBLE_COMPENSATION(Dimension.LENGTH, 0.05, "0.05 mm", "A17", "how near a path must match the outline moved twice"),
    /** Length cut twice from which a note is given; 50 mm (A22). */
    DUPLICATE_LENGTH(Dimension.LENGTH, 50, "50 mm", "A22", "length cut twice from which a note is given"),
    /** Share of the time in air from which a note is given; 20 % (A22). */
    AIR_SHARE(Dimension.RATIO, 0.20, "20 %", "A22", "share of the time in air from which a note is given"),
    /** Scatter after the best fit from which two files are of different boards; 0.15 mm (A23). */
    FIT_SCATTER(
            Dimension.LENGTH,
            0.15,
            "0.15 mm",
            "A23",
            "scatter after the best fit from which two files are of different boards"),
    // Set-up
    /** Pristine foil that a touch point needs beyond the cutter's radius; 0.5 mm (B2). */
    TOUCH_CLEAR(
            Dimension.LENGTH, 0.5, "0.5 mm", "B2", "pristine foil that a touch point needs beyond the cutter's radius"),
    /** Tilt across the job from which it is told; 0.05 mm (B6). */
    TILT(Dimension.LENGTH, 0.05, "0.05 mm", "B6", "tilt across the job from which it is told"),
    /** Correlation with the touched points from which Z is corrected twice; 0.7 x (B7). */
    HEIGHT_MAP_CORRELATION(
            Dimension.RATIO, 0.7, "0.7 x", "B7", "correlation with the touched points from which Z is corrected twice"),
    /** Shift between two files from which a watch is raised; 0.05 mm (B8). */
    XY_SHIFT_WATCH(Dimension.LENGTH, 0.05, "0.05 mm", "B8", "shift between two files from which a watch is raised"),
    /** Shift between two files from which a fix is raised; 0.15 mm (B8). */
    XY_SHIFT_FIX(Dimension.LENGTH, 0.15, "0.15 mm", "B8", "shift between two files from which a fix is raised"),
    /** Difference in scale from which it is told; 0.1 % (B8 B19). */
    XY_SCALE(Dimension.RATIO, 0.001, "0.1 %", "B8 B19", "difference in scale from which it is told"),
    /** Rotation between two files from which it is told; 0.05 deg (B8). */
    XY_ROTATION(Dimension.ANGLE, 0.05, "0.05 deg", "B8", "rotation between two files from which it is told"),
    /** Lead of the best match by which a mirrored layer is told; 5 % (B9). */
    MIRROR_LEAD(Dimension.RATIO, 0.05, "5 %", "B9", "lead of the best match by which a mirrored layer is told"),
    /** Residual of side 2 on side 1 from which a fix is raised; 0.10 mm (B11). */
    SIDES_RESIDUAL(Dimension.LENGTH, 0.10, "0.10 mm", "B11", "residual of side 2 on side 1 from which a fix is raised"),
    /** Play of the indication pins; 0.03 mm (B12). */
    PIN_FIT(Dimension.LENGTH, 0.03, "0.03 mm", "B12", "play of the indication pins"),
    /** Ring left after the budget below which a watch is raised; 0.15 mm (B12). */
    RING_BUDGET(Dimension.LENGTH, 0.15, "0.15 mm", "B12", "ring left after the budget below which a watch is raised"),
    /** Ring of a via left after the budget below which a watch is raised; 0.25 mm (B12). */
    VIA_RING_BUDGET(
            Dimension.LENGTH,
            0.25,
            "0.25 mm",
            "B12",
            "ring of a via left after the budget below which a watch is raised"),
    /** Distance from keep-outs beyond the cutter's radius; 0.5 mm (B13 I7). */
    KEEP_OUT_CLEAR(Dimension.LENGTH, 0.5, "0.5 mm", "B13 I7", "distance from keep-outs beyond the cutter's radius"),
    /** How far the blank's thickness is swept to list what flips; 10 % (B16). */
    THICKNESS_SWEEP(
            Dimension.RATIO,
            0.10,
            "10 %",
            "B16",
            "share of its thickness by which the blank is tried thicker and thinner"),
    /** Backlash where the machine states none; 0.05 mm (B18). */
    BACKLASH(Dimension.LENGTH, 0.05, "0.05 mm", "B18", "backlash where the machine states none"),
    /** Material beyond the cutter's radius in an inside corner from which a note is given; 0.1 mm (H9). */
    CORNER_LEFT(
            Dimension.LENGTH,
            0.1,
            "0.1 mm",
            "H9",
            "material beyond the cutter's radius in an inside corner of the outline from which a note is given"),
    /** Runout that every cutter is tried with; 0.05 mm (C9). */
    RUNOUT_DOUBT(Dimension.LENGTH, 0.05, "0.05 mm", "C9", "runout that every cutter is tried with"),
    // Cutters
    /** Flat tip that an unknown tip is read as; 0.10 mm (C1). */
    UNKNOWN_TIP_WIDTH(Dimension.LENGTH, 0.10, "0.10 mm", "C1", "flat tip that an unknown tip is read as"),
    /** Round tip that an unknown tip is read as; 0.127 mm (C1). */
    UNKNOWN_TIP_RADIUS(Dimension.LENGTH, 0.127, "0.127 mm", "C1", "round tip that an unknown tip is read as"),
    /** Length that an engraving bit cuts in glass-fibre substrate; 2 m (C4). */
    WEAR_V_GLASS(Dimension.LENGTH, 2000, "2 m", "C4", "length that an engraving bit cuts in glass-fibre substrate"),
    /** Length that an engraving bit cuts in paper substrate; 20 m (C4). */
    WEAR_V_PAPER(Dimension.LENGTH, 20000, "20 m", "C4", "length that an engraving bit cuts in paper substrate"),
    /** Length that an end mill cuts through glass-fibre substrate; 0.5 m (C4). */
    WEAR_MILL_GLASS(Dimension.LENGTH, 500, "0.5 m", "C4", "length that an end mill cuts through glass-fibre substrate"),
    /** Length that an end mill cuts through paper substrate; 15 m (C4). */
    WEAR_MILL_PAPER(Dimension.LENGTH, 15000, "15 m", "C4", "length that an end mill cuts through paper substrate"),
    /** Share of the wear length from which a watch is raised; 70 % (C4). */
    WEAR_SHARE(Dimension.RATIO, 0.70, "70 %", "C4", "share of the wear length from which a watch is raised"),
    /** Least chip load of a small cutter, a tooth; 0.004 mm (C5). */
    CHIP_LOAD_LEAST(Dimension.LENGTH, 0.004, "0.004 mm", "C5", "least chip load of a small cutter, a tooth"),
    /** Largest chip load in paper substrate, in diameters; 3 % (C6). */
    CHIP_LOAD_PAPER(Dimension.RATIO, 0.03, "3 %", "C6", "largest chip load in paper substrate, in diameters"),
    /** Largest chip load in glass-fibre substrate, in diameters; 2 % (C6). */
    CHIP_LOAD_GLASS(Dimension.RATIO, 0.02, "2 %", "C6", "largest chip load in glass-fibre substrate, in diameters"),
    /** Chip load up to which a V-shaped tip is silent; 0.02 mm (C6). */
    CHIP_LOAD_TIP(Dimension.LENGTH, 0.02, "0.02 mm", "C6", "chip load up to which a V-shaped tip is silent"),
    /** Depth, in diameters, from which chip load is judged; 0.25 x (C6). */
    CHIP_LOAD_DEPTH(Dimension.RATIO, 0.25, "0.25 x", "C6", "depth, in diameters, from which chip load is judged"),
    /** Chip load, in limits, above which a fix is raised; 2 x (C6). */
    CHIP_LOAD_FIX(Dimension.RATIO, 2, "2 x", "C6", "chip load, in limits, above which a fix is raised"),
    /** Cutting force by chip area in paper substrate; 150 N/mm2 (C7). */
    CUTTING_PRESSURE_PAPER(Dimension.STRESS, 150, "150 N/mm2", "C7", "cutting force by chip area in paper substrate"),
    /** Cutting force by chip area in glass-fibre substrate; 400 N/mm2 (C7). */
    CUTTING_PRESSURE_GLASS(
            Dimension.STRESS, 400, "400 N/mm2", "C7", "cutting force by chip area in glass-fibre substrate"),
    /** Bending stress of a cutter from which a watch is raised; 1000 N/mm2 (C7). */
    BEND_WATCH(Dimension.STRESS, 1000, "1000 N/mm2", "C7", "bending stress of a cutter from which a watch is raised"),
    /** Bending stress of a cutter from which a stop is raised; 2500 N/mm2 (C7). */
    BEND_STOP(Dimension.STRESS, 2500, "2500 N/mm2", "C7", "bending stress of a cutter from which a stop is raised"),
    /** Bend of a cutter at a copper wall from which a watch is raised; 0.02 mm (C8). */
    DEFLECTION(
            Dimension.LENGTH, 0.02, "0.02 mm", "C8", "bend of a cutter at a copper wall from which a watch is raised"),
    /** Depth of a V-shaped bit from which it is in the wrong job; 0.3 mm (C12 G1). */
    V_DEPTH(Dimension.LENGTH, 0.3, "0.3 mm", "C12 G1", "depth of a V-shaped bit from which it is in the wrong job"),
    // Holes
    /** Exit of a hole, in entries, below which the bit is wrong; 90 % (G1). */
    EXIT_SHARE(Dimension.RATIO, 0.90, "90 %", "G1", "exit of a hole, in entries, below which the bit is wrong"),
    /** How much larger than the drill file a hole may be; 0.15 mm (G2). */
    HOLE_OVERSIZE(Dimension.LENGTH, 0.15, "0.15 mm", "G2", "how much larger than the drill file a hole may be"),
    /** How much smaller than the drill file a hole may be; 0.05 mm (G2). */
    HOLE_UNDERSIZE(Dimension.LENGTH, 0.05, "0.05 mm", "G2", "how much smaller than the drill file a hole may be"),
    /** Least clearance of a lead in its hole; 0.15 mm (G2). */
    LEAD_CLEARANCE_LEAST(Dimension.LENGTH, 0.15, "0.15 mm", "G2", "least clearance of a lead in its hole"),
    /** Largest clearance of a lead in its hole; 0.35 mm (G2). */
    LEAD_CLEARANCE_MOST(Dimension.LENGTH, 0.35, "0.35 mm", "G2", "largest clearance of a lead in its hole"),
    /** How far from its place a hole is still found; 0.15 mm (G3). */
    HOLE_PLACE(Dimension.LENGTH, 0.15, "0.15 mm", "G3", "how far from its place a hole is still found"),
    /** Drills below this wander without a spot mark; 0.6 mm (G5). */
    WANDER_DIAMETER(Dimension.LENGTH, 0.6, "0.6 mm", "G5", "drills below this wander without a spot mark"),
    /** Depth of a drill, in diameters, from which it must peck; 5 x (G5). */
    WANDER_DEPTH(Dimension.RATIO, 5, "5 x", "G5", "depth of a drill, in diameters, from which it must peck"),
    /** Straight plunge of an end mill, in diameters, from which a watch is raised; 1.5 x (G6). */
    MILL_PLUNGE(
            Dimension.RATIO,
            1.5,
            "1.5 x",
            "G6",
            "straight plunge of an end mill, in diameters, from which a watch is raised"),
    /** Helix radius below which a note is given; 0.05 mm (G7). */
    HELIX_RADIUS(Dimension.LENGTH, 0.05, "0.05 mm", "G7", "helix radius below which a note is given"),
    /** Distance of a bore from foreign copper below which a watch is raised; 0.20 mm (G9). */
    BORE_CLEAR(
            Dimension.LENGTH,
            0.20,
            "0.20 mm",
            "G9",
            "distance of a bore from foreign copper below which a watch is raised"),
    /** Web left in a slot of overlapping holes; 0.05 mm (G10). */
    SLOT_WEB(Dimension.LENGTH, 0.05, "0.05 mm", "G10", "web left in a slot of overlapping holes"),
    /** Least plunge a turn; 0.005 mm (G11). */
    PLUNGE_PER_TURN_LEAST(Dimension.LENGTH, 0.005, "0.005 mm", "G11", "least plunge a turn"),
    /** Largest plunge a turn, in diameters; 0.05 x (G11). */
    PLUNGE_PER_TURN_MOST(Dimension.RATIO, 0.05, "0.05 x", "G11", "largest plunge a turn, in diameters"),
    /** Plunges deeper than this are judged by their feed a turn; 0.5 mm (G11). */
    PLUNGE_PER_TURN_DEPTH(
            Dimension.LENGTH, 0.5, "0.5 mm", "G11", "plunges deeper than this are judged by their feed a turn"),
    // Outline and loose parts
    /** How far the finished size may differ from the outline; 0.10 mm (H1). */
    OUTLINE_OFF(Dimension.LENGTH, 0.10, "0.10 mm", "H1", "how far the finished size may differ from the outline"),
    /** Least number of tabs; 2 x (H3). */
    TAB_COUNT(Dimension.RATIO, 2, "2 x", "H3", "least number of tabs"),
    /** Section of a tab below which a note is given; 0.4 mm2 (H3). */
    TAB_SECTION_LEAST(Dimension.AREA, 0.4, "0.4 mm2", "H3", "section of a tab below which a note is given"),
    /** Section of a tab above which a note is given; 3 mm2 (H3). */
    TAB_SECTION_MOST(Dimension.AREA, 3, "3 mm2", "H3", "section of a tab above which a note is given"),
    /** Share of a tab's section that must survive the Z spread; 50 % (H4). */
    TAB_SHARE(Dimension.RATIO, 0.50, "50 %", "H4", "share of a tab's section that must survive the Z spread"),
    /** Freed piece larger than this each way is told; 3 mm (H6). */
    SLUG(Dimension.LENGTH, 3, "3 mm", "H6", "freed piece larger than this each way is told"),
    /** Largest depth a pass in paper substrate, in diameters; 0.75 x (H7). */
    PASS_DEPTH_PAPER(Dimension.RATIO, 0.75, "0.75 x", "H7", "largest depth a pass in paper substrate, in diameters"),
    /** Largest depth a pass in glass-fibre substrate, in diameters; 0.5 x (H7). */
    PASS_DEPTH_GLASS(
            Dimension.RATIO, 0.5, "0.5 x", "H7", "largest depth a pass in glass-fibre substrate, in diameters"),
    /** Depth a pass, in limits, above which a fix is raised; 1.5 x (H7). */
    PASS_DEPTH_FIX(Dimension.RATIO, 1.5, "1.5 x", "H7", "depth a pass, in limits, above which a fix is raised"),
    /** Copper or board left in an inside corner beyond the cutter's radius; 0.1 mm (H9). */
    INSIDE_CORNER(
            Dimension.LENGTH,
            0.1,
            "0.1 mm",
            "H9",
            "copper or board left in an inside corner beyond the cutter's radius"),
    /** Distance of the outline from copper below which a watch is raised; 0.25 mm (H10). */
    OUTLINE_COPPER(
            Dimension.LENGTH,
            0.25,
            "0.25 mm",
            "H10",
            "distance of the outline from copper below which a watch is raised"),
    /** Usual least allowance of the finished board in its enclosure; 0.5 mm (H11). */
    FIT_ALLOWANCE_LEAST(
            Dimension.LENGTH, 0.5, "0.5 mm", "H11", "usual least allowance of the finished board in its enclosure"),
    /** Usual largest allowance of the finished board in its enclosure; 1.9 mm (H11). */
    FIT_ALLOWANCE_MOST(
            Dimension.LENGTH, 1.9, "1.9 mm", "H11", "usual largest allowance of the finished board in its enclosure"),
    // Spoil board and hold-down
    /** Margin of a copper-only cutter above the spoil board below which a watch is raised; 0.3 mm (I1). */
    SPOIL_BOARD_MARGIN(
            Dimension.LENGTH,
            0.3,
            "0.3 mm",
            "I1",
            "margin of a copper-only cutter above the spoil board below which a watch is raised"),
    /** Least over-cut that is wanted; 0.05 mm (I2). */
    OVER_CUT_LEAST(Dimension.LENGTH, 0.05, "0.05 mm", "I2", "least over-cut that is wanted"),
    /** Over-cut from which a note is given; 0.30 mm (I2). */
    OVER_CUT_NOTE(Dimension.LENGTH, 0.30, "0.30 mm", "I2", "over-cut from which a note is given"),
    /** Over-cut from which a watch is raised; 0.50 mm (I2). */
    OVER_CUT_WATCH(Dimension.LENGTH, 0.50, "0.50 mm", "I2", "over-cut from which a watch is raised"),
    /** Spoil board that must remain below a cut; 0.5 mm (I2). */
    SPOIL_BOARD_LEFT(Dimension.LENGTH, 0.5, "0.5 mm", "I2", "spoil board that must remain below a cut"),
    /** Pull that taped area holds; 0.02 N/mm2 (I6). */
    HOLD_STRENGTH(Dimension.STRESS, 0.02, "0.02 N/mm2", "I6", "pull that taped area holds"),
    /** Hold, in pulls, below which a note is given; 3 x (I6). */
    HOLD_NOTE(Dimension.RATIO, 3, "3 x", "I6", "hold, in pulls, below which a note is given"),
    /** Hold, in pulls, below which a watch is raised; 1 x (I6). */
    HOLD_WATCH(Dimension.RATIO, 1, "1 x", "I6", "hold, in pulls, below which a watch is raised"),
    // Electrical result
    /** Voltage drop, in rails, from which a watch is raised; 3 % (J5). */
    DROP_SHARE(Dimension.RATIO, 0.03, "3 %", "J5", "voltage drop, in rails, from which a watch is raised"),
    /** Temperature rise from which a watch is raised; 20 K (J6). */
    RISE_WATCH(Dimension.TEMPERATURE_RISE, 20, "20 K", "J6", "temperature rise from which a watch is raised"),
    /** Temperature rise from which a fix is raised; 40 K (J6). */
    RISE_FIX(Dimension.TEMPERATURE_RISE, 40, "40 K", "J6", "temperature rise from which a fix is raised"),
    /** Least length of a narrow section that is judged by its current; 1 mm (J6). */
    NECK_LENGTH(Dimension.LENGTH, 1, "1 mm", "J6", "least length of a narrow section that is judged by its current"),
    /** Gap at the foil bottom up to 30 V (check the current edition of the standard); 0.1 mm (J7). */
    SPACING_30V(
            Dimension.LENGTH,
            0.1,
            "0.1 mm",
            "J7",
            "gap at the foil bottom up to 30 V (check the current edition of the standard)"),
    /** Gap at the foil bottom up to 150 V (check the current edition of the standard); 0.6 mm (J7). */
    SPACING_150V(
            Dimension.LENGTH,
            0.6,
            "0.6 mm",
            "J7",
            "gap at the foil bottom up to 150 V (check the current edition of the standard)"),
    /** Gap at the foil bottom up to 300 V (check the current edition of the standard); 1.25 mm (J7). */
    SPACING_300V(
            Dimension.LENGTH,
            1.25,
            "1.25 mm",
            "J7",
            "gap at the foil bottom up to 300 V (check the current edition of the standard)"),
    /** Power by copper area from which a watch is raised; 0.5 W/cm2 (J11). */
    DISSIPATION(
            Dimension.POWER_DENSITY, 0.005, "0.5 W/cm2", "J11", "power by copper area from which a watch is raised"),
    /** Direct voltage from which certification is refused; 60 V (L6). */
    MAINS_DC(Dimension.VOLTAGE, 60, "60 V", "L6", "direct voltage from which certification is refused"),
    /** Alternating voltage from which certification is refused; 30 V (L6). */
    MAINS_AC(Dimension.VOLTAGE, 30, "30 V", "L6", "alternating voltage from which certification is refused"),
    // Time and safety
    /** Error of the time estimate from which a range is given; 15 % (K1). */
    TIME_ERROR(Dimension.RATIO, 0.15, "15 %", "K1", "error of the time estimate from which a range is given"),
    /** Time saved by another order from which it is told; 120 s (K2). */
    CHANGE_SAVING(Dimension.TIME, 120, "120 s", "K2", "time saved by another order from which it is told"),
    /** Time that a fine cutter spends clearing from which it is told; 180 s (K3). */
    FINE_CLEARING(Dimension.TIME, 180, "180 s", "K3", "time that a fine cutter spends clearing from which it is told"),
    /** Least height of the spindle at a tool change; 20 mm (K4). */
    CHANGE_HEIGHT(Dimension.LENGTH, 20, "20 mm", "K4", "least height of the spindle at a tool change"),
    /** Dwell in material from which it may burn; 0.5 s (L2). */
    DWELL_IN_CUT(Dimension.TIME, 0.5, "0.5 s", "L2", "dwell in material from which it may burn"),
    /** Length cut with too small a chip load from which it may burn; 1 m (L2). */
    RUBBING_LENGTH(Dimension.LENGTH, 1000, "1 m", "L2", "length cut with too small a chip load from which it may burn"),
    /** Time of cutting from which the checklist is shown; 600 s (L3). */
    LONG_CUT(Dimension.TIME, 600, "600 s", "L3", "time of cutting from which the checklist is shown");

    private static final Map<String, LimitKey> BY_KEY = byKey();

    private final Dimension dimension;
    private final double defaultValue;
    private final String defaultText;
    private final String needs;
    private final String meaning;

    LimitKey(Dimension dimension, double defaultValue, String defaultText, String needs, String meaning) {
        this.dimension = dimension;
        this.defaultValue = defaultValue;
        this.defaultText = defaultText;
        this.needs = needs;
        this.meaning = meaning;
    }

    /** The key in a job file: small letters, words joined by underscores. */
    public String key() {
        return name().toLowerCase(Locale.ROOT);
    }

    /** What is measured. */
    public Dimension dimension() {
        return dimension;
    }

    /** The default in the engine's unit of the dimension. */
    public double defaultValue() {
        return defaultValue;
    }

    /** The default as a job file would say it. */
    public String defaultText() {
        return defaultText;
    }

    /** The rows of the catalogue of needs that the limit serves, separated by spaces. */
    public String needs() {
        return needs;
    }

    /** What the limit decides, one clause with its severity where it has one. */
    public String meaning() {
        return meaning;
    }

    /** The limit of this key, or null where there is none. */
    public static @Nullable LimitKey of(String key) {
        return BY_KEY.get(key);
    }

    /** Every key, in the order of the catalogue. */
    public static List<String> keys() {
        return List.copyOf(BY_KEY.keySet());
    }

    private static Map<String, LimitKey> byKey() {
        Map<String, LimitKey> map = new LinkedHashMap<>();
        for (LimitKey limit : values()) {
            map.put(limit.key(), limit);
        }
        return map;
    }
}

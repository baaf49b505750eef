package foilproof.findings;

import java.util.List;

/** The kinds of finding: plain trade words, kebab-case, a contract with everybody who reads results. */
public final class Kinds {
    public static final String PROGRAM_ERROR = "program-error";
    public static final String UNITS_UNSET = "units-unset";
    public static final String FEED_UNSET = "feed-unset";
    public static final String SPINDLE_NOT_TURNING = "spindle-not-turning";
    public static final String TOOL_UNKNOWN = "tool-unknown";
    public static final String BEYOND_TRAVEL = "beyond-travel";
    public static final String FEED_TOO_HIGH = "feed-too-high";
    public static final String SPINDLE_SPEED = "spindle-speed";
    public static final String RAPID_IN_MATERIAL = "rapid-in-material";
    public static final String PLUNGE_TOO_FAST = "plunge-too-fast";
    public static final String CHIP_LOAD = "chip-load";
    public static final String SIDE_LOAD = "side-load";
    public static final String SHANK_CONTACT = "shank-contact";
    public static final String KEEP_OUT_CONTACT = "keep-out-contact";
    public static final String TOUCH_OFF_SPOILT = "touch-off-spoilt";
    public static final String PROGRAM_TRUNCATED = "program-truncated";
    public static final String ARC_SUSPECT = "arc-suspect";
    public static final String WRONG_Z_REFERENCE = "wrong-z-reference";
    public static final String MIRRORED = "mirrored";
    public static final String SIDES_SHIFTED = "sides-shifted";
    public static final String FOIL_LEFT = "foil-left";
    public static final String THIN_MARGIN = "thin-margin";
    public static final String TOO_DEEP = "too-deep";
    public static final String SEVERED_COPPER = "severed-copper";
    public static final String THIN_TRACE = "thin-trace";
    public static final String HAIR = "hair";
    public static final String SLIVER = "sliver";
    public static final String STRAY_COPPER = "stray-copper";
    public static final String NARROW_GAP = "narrow-gap";
    public static final String WRONG_BIT_DRILLING = "wrong-bit-drilling";
    public static final String DRILL_WANDER = "drill-wander";
    public static final String HOLE_MISSING = "hole-missing";
    public static final String HOLE_SIZE = "hole-size";
    public static final String RING_THIN = "ring-thin";
    public static final String NOT_THROUGH = "not-through";
    public static final String DUTY_BROKEN = "duty-broken";
    public static final String SPOIL_BOARD_CONTACT = "spoil-board-contact";
    public static final String SPOIL_BOARD_DEEP = "spoil-board-deep";
    public static final String TABLE_CONTACT = "table-contact";
    public static final String PART_FREE = "part-free";
    public static final String TABS = "tabs";
    public static final String DEEP_PASS = "deep-pass";
    public static final String TOOL_WEAR = "tool-wear";
    public static final String DISTANCE_MODE = "distance-mode";
    public static final String LENGTH_OFFSET = "length-offset";
    public static final String CYCLE_SUSPECT = "cycle-suspect";
    public static final String DEEP_PLUNGE = "deep-plunge";
    public static final String SHORT = "short";
    public static final String OPEN = "open";
    public static final String NARROW_NET = "narrow-net";
    public static final String HOT_TRACE = "hot-trace";
    public static final String SPACING = "spacing";
    public static final String TIP_UNKNOWN = "tip-unknown";
    public static final String ORDER = "order";
    public static final String DUST = "dust";
    public static final String DECIMAL_SLIP = "decimal-slip";
    public static final String WORK_OFFSET = "work-offset";
    public static final String SPIN_UP = "spin-up";
    public static final String CUTTER_COMPENSATION = "cutter-compensation";
    public static final String BLOCK_DELETE = "block-delete";
    public static final String START_STATE = "start-state";
    public static final String WASTED_MOVES = "wasted-moves";
    public static final String UNSAFE_PAUSE = "unsafe-pause";
    public static final String BURN = "burn";
    public static final String BURR = "burr";
    public static final String TIME = "time";
    public static final String TOOL_CHANGES = "tool-changes";
    public static final String LOOK_ALIKE = "look-alike";
    public static final String OUTLINE_OFF = "outline-off";
    public static final String EDGE_COPPER = "edge-copper";
    public static final String OFF_BLANK = "off-blank";
    public static final String OTHER_REVISION = "other-revision";
    public static final String BORE_TIGHT = "bore-tight";
    public static final String SLOT_WEB = "slot-web";
    public static final String VIA_LIST = "via-list";
    public static final String SOLDER_ACCESS = "solder-access";
    public static final String HOLD_WEAK = "hold-weak";
    public static final String SPOIL_BOARD_CUT = "spoil-board-cut";
    public static final String TILT = "tilt";
    public static final String HEIGHT_MAP_TWICE = "height-map-twice";
    public static final String PATH_BLENDING = "path-blending";
    public static final String FLOOR_LEFT = "floor-left";
    public static final String FOIL_WEIGHT = "foil-weight";
    public static final String LAND_SMALL = "land-small";
    public static final String LETTERING = "lettering";
    public static final String LAND_HEAT = "land-heat";
    public static final String HAND_JOINS = "hand-joins";
    public static final String NETLIST_DIFFERS = "netlist-differs";

    public static final String BACKLASH = "backlash";
    public static final String ANGLE_DOUBT = "angle-doubt";
    public static final String RUNOUT = "runout";

    public static final String LEAKAGE = "leakage";
    public static final String FLOOD_GAP = "flood-gap";
    public static final String BLANK_THICKNESS = "blank-thickness";

    public static final String CORNER_LEFT = "corner-left";

    /** Every kind, in the order of the documentation. */
    public static final List<String> ALL = List.of(
            PROGRAM_ERROR,
            UNITS_UNSET,
            FEED_UNSET,
            SPINDLE_NOT_TURNING,
            TOOL_UNKNOWN,
            BEYOND_TRAVEL,
            FEED_TOO_HIGH,
            SPINDLE_SPEED,
            RAPID_IN_MATERIAL,
            PLUNGE_TOO_FAST,
            CHIP_LOAD,
            SIDE_LOAD,
            SHANK_CONTACT,
            KEEP_OUT_CONTACT,
            TOUCH_OFF_SPOILT,
            PROGRAM_TRUNCATED,
            ARC_SUSPECT,
            WRONG_Z_REFERENCE,
            MIRRORED,
            SIDES_SHIFTED,
            FOIL_LEFT,
            THIN_MARGIN,
            TOO_DEEP,
            SEVERED_COPPER,
            THIN_TRACE,
            HAIR,
            SLIVER,
            STRAY_COPPER,
            NARROW_GAP,
            WRONG_BIT_DRILLING,
            DRILL_WANDER,
            HOLE_MISSING,
            HOLE_SIZE,
            RING_THIN,
            NOT_THROUGH,
            DUTY_BROKEN,
            SPOIL_BOARD_CONTACT,
            SPOIL_BOARD_DEEP,
            TABLE_CONTACT,
            PART_FREE,
            TABS,
            DEEP_PASS,
            TOOL_WEAR,
            DISTANCE_MODE,
            LENGTH_OFFSET,
            CYCLE_SUSPECT,
            DEEP_PLUNGE,
            SHORT,
            OPEN,
            NARROW_NET,
            HOT_TRACE,
            SPACING,
            TIP_UNKNOWN,
            ORDER,
            DUST,
            DECIMAL_SLIP,
            WORK_OFFSET,
            SPIN_UP,
            CUTTER_COMPENSATION,
            BLOCK_DELETE,
            START_STATE,
            WASTED_MOVES,
            UNSAFE_PAUSE,
            BURN,
            BURR,
            TIME,
            TOOL_CHANGES,
            LOOK_ALIKE,
            OUTLINE_OFF,
            EDGE_COPPER,
            OFF_BLANK,
            OTHER_REVISION,
            BORE_TIGHT,
            SLOT_WEB,
            VIA_LIST,
            SOLDER_ACCESS,
            HOLD_WEAK,
            SPOIL_BOARD_CUT,
            TILT,
            HEIGHT_MAP_TWICE,
            PATH_BLENDING,
            LETTERING,
            FLOOR_LEFT,
            FOIL_WEIGHT,
            LAND_SMALL,
            LAND_HEAT,
            HAND_JOINS,
            NETLIST_DIFFERS,
            BACKLASH,
            ANGLE_DOUBT,
            RUNOUT,
            LEAKAGE,
            FLOOD_GAP,
            BLANK_THICKNESS,
            CORNER_LEFT);

    private Kinds() {}
}

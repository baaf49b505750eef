package foilproof.language;

import java.util.OptionalDouble;

/** Runs a block in the order of NISTIR 6556 table 8. */
final class BlockRunner {
    private static final double SHORTEST_PROBE_MM = 0.254;

    private final Controller c;
    private final InterpreterSetup setup;
    private final BlockChecks checks;
    private final Arcs arcs;
    private final Cycles cycles;
    private final Compensation compensation;
    private final Origins origins;
    private final double[] lastTrip = {Double.NaN, Double.NaN, Double.NaN};

    BlockRunner(Controller controller) {
        c = controller;
        setup = controller.setup;
        checks = new BlockChecks(controller);
        arcs = new Arcs(controller);
        cycles = new Cycles(controller);
        compensation = new Compensation(controller);
        origins = new Origins(controller, compensation);
    }

    /** Runs a block whose comment, if any, has been told; returns whether the program has ended. */
    boolean run(Block block) throws ProgramException {
        c.timeShare = 1;
        checks.check(block);
        for (int i = 0; i < block.settings; i++) {
            origins.setParameter(block.settingNumber[i], block.settingValue[i]);
        }
        if (block.gCount > 0) {
            feedMode(block.g[Codes.FEED_MODE]);
        }
        if (block.has('F')) {
            setFeed(block);
        }
        if (block.has('S')) {
            setSpeed(block);
        }
        if (block.has('T')) {
            selectTool(block);
        }
        if (block.mCount > 0) {
            machineCodes(block);
        }
        if (block.gCount > 0) {
            modes(block);
        }
        motion(block);
        return block.mCount > 0 && stop(block.m[Codes.STOP]);
    }

    private void feedMode(int code) {
        if (code < 0) {
            return;
        }
        FeedMode mode = code == 930 ? FeedMode.INVERSE_TIME : FeedMode.UNITS_PER_MINUTE;
        c.feedModeSet = true;
        c.stateChanged |= mode != c.feedMode;
        if (mode == FeedMode.INVERSE_TIME && c.feedMode != mode) {
            c.note(NoteKind.INVERSE_TIME, Double.NaN, "F counts 1/minutes from here");
        }
        c.feedMode = mode;
        c.command(CommandKind.SET_FEED_MODE, mode.ordinal());
    }

    private void setFeed(Block block) throws ProgramException {
        double value = block.value('F');
        if (value < 0) {
            throw block.error("feed-negative", 'F', "a negative feed").expecting("Expected F of 0 or more.");
        }
        // F comes before the units in the order of a line, yet means the units of its line (open point A3).
        int code = block.g[Codes.UNITS];
        LengthUnits units = code == 200 ? LengthUnits.INCH : code == 210 ? LengthUnits.MM : c.units;
        c.setFeed(value, units.mmPerUnit());
    }

    private void setSpeed(Block block) throws ProgramException {
        double value = block.value('S');
        if (value < 0) {
            throw block.error("speed-negative", 'S', "a negative spindle speed").expecting("Expected S of 0 or more.");
        }
        c.stateChanged |= Double.compare(value, c.speedRpm) != 0;
        c.speedRpm = value;
        c.command(CommandKind.SET_SPEED, value);
    }

    private void selectTool(Block block) throws ProgramException {
        int number = toolNumber(block, 'T');
        c.stateChanged |= number != c.selectedTool;
        c.selectedTool = number;
        if (number > 0 && !setup.tools().exists(number)) {
            c.note(NoteKind.TOOL_UNKNOWN, number, "the bench has no tool " + number);
        }
        c.command(CommandKind.SELECT_TOOL, number);
    }

    private int toolNumber(Block block, char letter) throws ProgramException {
        int number = BlockReader.nearInteger(block.value(letter));
        if (number < 0 || number > setup.toolSlots()) {
            throw block.error("tool-number", letter, letter + " names no tool")
                    .expecting("Expected a whole number, 0 to " + setup.toolSlots() + ".");
        }
        return number;
    }

    private void machineCodes(Block block) throws ProgramException {
        if (block.m[Codes.TOOL] >= 0) {
            changeTool(block);
        }
        switch (block.m[Codes.SPINDLE]) {
            case 3 -> c.setSpindle(SpindleTurn.CLOCKWISE);
            case 4 -> c.setSpindle(SpindleTurn.COUNTERCLOCKWISE);
            case 5 -> c.setSpindle(SpindleTurn.STOPPED);
            default -> {}
        }
        switch (block.m[Codes.COOLANT]) {
            case 7 -> coolant(CommandKind.MIST_ON, true, c.flood);
            case 8 -> coolant(CommandKind.FLOOD_ON, c.mist, true);
            case 9 -> coolant(CommandKind.COOLANT_OFF, false, false);
            default -> {}
        }
        int overrides = block.m[Codes.OVERRIDES];
        if (overrides >= 0) {
            c.stateChanged |= c.overrides != (overrides == 48);
            c.overrides = overrides == 48;
            c.command(CommandKind.OVERRIDES, overrides == 48 ? 1 : 0);
        }
    }

    private void coolant(CommandKind kind, boolean mist, boolean flood) {
        c.stateChanged |= c.mist != mist || c.flood != flood;
        c.mist = mist;
        c.flood = flood;
        c.command(kind);
    }

    private void changeTool(Block block) throws ProgramException {
        if (c.comp != CutterComp.OFF) {
            throw block.error("comp-tool-change", "a tool change while radius compensation is on")
                    .expecting("Expected G40 first.");
        }
        if (c.selectedTool < 0) {
            c.note(
                    NoteKind.TOOL_CHANGE_WITHOUT_TOOL,
                    Double.NaN,
                    "M6 without any T before it: the tool stays what it was");
        } else {
            c.tool = c.selectedTool;
        }
        c.note(NoteKind.TOOL_CHANGE, c.tool, "");
        if (c.spindle != SpindleTurn.STOPPED) {
            c.note(NoteKind.TOOL_CHANGE_SPINDLE_ON, c.tool, "M6 while the spindle turns");
        }
        c.spindle = SpindleTurn.STOPPED;
        c.stateChanged = true;
        c.command(CommandKind.CHANGE_TOOL, c.tool);
    }

    private void modes(Block block) throws ProgramException {
        if (block.g[Codes.NON_MODAL] == 40) {
            double seconds = block.value('P') * setup.dwellUnitS();
            c.note(NoteKind.DWELL, seconds, "");
            c.command(CommandKind.DWELL, seconds);
        }
        plane(block.g[Codes.PLANE]);
        units(block.g[Codes.UNITS]);
        comp(block);
        length(block);
        if (block.g[Codes.SYSTEM] >= 0) {
            origins.select(block);
        }
        path(block);
        distance(block);
        int retract = block.g[Codes.RETURN];
        if (retract >= 0) {
            c.stateChanged |= c.retractToOldZ != (retract == 980);
            c.retractToOldZ = retract == 980;
        }
        origins.nonModal(block);
    }

    private void plane(int code) {
        if (code < 0) {
            return;
        }
        Plane plane = code == 170 ? Plane.XY : code == 180 ? Plane.ZX : Plane.YZ;
        c.planeSet = true;
        c.stateChanged |= plane != c.plane;
        c.plane = plane;
        c.command(CommandKind.SELECT_PLANE, plane.ordinal());
    }

    private void units(int code) {
        if (code < 0) {
            return;
        }
        double before = c.scale();
        c.setUnits(code == 200 ? LengthUnits.INCH : LengthUnits.MM);
        if (before != c.scale() && setup.feedNumberKept() && c.feedMode == FeedMode.UNITS_PER_MINUTE) {
            c.feedMmPerMin = c.feedNumber * c.scale();
        }
    }

    private void comp(Block block) throws ProgramException {
        int code = block.g[Codes.RADIUS_COMP];
        if (code < 0) {
            return;
        }
        c.compSet = true;
        c.compX = Double.NaN;
        c.compY = Double.NaN;
        if (code == 400) {
            c.stateChanged |= c.comp != CutterComp.OFF;
            c.comp = CutterComp.OFF;
            c.compNumber = -1;
            return;
        }
        int number = c.tool;
        if (block.has('D')) {
            number = toolNumber(block, 'D');
        } else {
            c.note(NoteKind.COMP_WITHOUT_D, c.tool, "no D: the diameter of the tool in the spindle is taken");
        }
        double diameterMm = number <= 0 ? 0 : setup.tools().diameterMm(number);
        if (Double.isNaN(diameterMm) || number < 0) {
            c.note(NoteKind.COMP_DIAMETER_UNKNOWN, number, "the diameter is not known: run with radius 0");
            diameterMm = 0;
        }
        c.comp = code == 410 ? CutterComp.LEFT : CutterComp.RIGHT;
        c.compNumber = number;
        c.compRadiusMm = diameterMm / 2;
        c.stateChanged = true;
        c.note(NoteKind.COMP_ON, c.compRadiusMm, Codes.nameOfG(code));
    }

    private void length(Block block) throws ProgramException {
        int code = block.g[Codes.LENGTH];
        if (code < 0) {
            return;
        }
        c.lengthSet = true;
        if (code == 490) {
            if (c.lengthMm != 0) {
                c.note(NoteKind.LENGTH_OFFSET_OFF, c.lengthMm, "G49 ends a length offset");
            }
            c.setLengthMm(0, 0);
        } else if (code == 431) {
            double mm = block.value('Z') * c.scale();
            c.setLengthMm(mm, -1);
            c.note(NoteKind.LENGTH_OFFSET_ON, mm, "G43.1");
        } else {
            int number = toolNumber(block, 'H');
            double mm = number == 0 ? 0 : setup.tools().lengthMm(number);
            if (Double.isNaN(mm)) {
                c.note(
                        NoteKind.LENGTH_OFFSET_UNKNOWN,
                        number,
                        "the length that H" + number + " names is not known: run with 0");
                mm = 0;
            } else {
                c.note(NoteKind.LENGTH_OFFSET_ON, mm, "H" + number);
            }
            if (number != 0 && c.tool >= 0 && number != c.tool) {
                c.note(
                        NoteKind.LENGTH_OFFSET_OTHER_TOOL,
                        number,
                        "H" + number + " while tool " + c.tool + " is in the spindle");
            }
            c.setLengthMm(mm, number);
        }
    }

    private void path(Block block) throws ProgramException {
        int code = block.g[Codes.PATH];
        if (code < 0) {
            return;
        }
        double toleranceMm = Double.NaN;
        if (code == 640 && block.has('P') && block.g[Codes.NON_MODAL] != 40 && block.g[Codes.NON_MODAL] != 100) {
            toleranceMm = block.value('P') * c.scale();
            if (toleranceMm < 0) {
                throw block.error("path-tolerance", 'P', "a negative path tolerance")
                        .expecting("Expected P of 0 or more.");
            }
            c.note(NoteKind.PATH_TOLERANCE, toleranceMm, "");
        }
        c.setPathMode(
                code == 610 ? PathMode.EXACT_PATH : code == 611 ? PathMode.EXACT_STOP : PathMode.CONTINUOUS,
                toleranceMm);
    }

    private void distance(Block block) {
        int code = block.g[Codes.DISTANCE];
        if (code >= 0) {
            c.distanceSet = true;
            c.stateChanged |= c.incremental != (code == 910);
            c.incremental = code == 910;
        }
        int centres = block.g[Codes.ARC_DISTANCE];
        if (centres >= 0) {
            c.stateChanged |= c.arcCentresAbsolute != (centres == 901);
            c.arcCentresAbsolute = centres == 901;
        }
    }

    private void motion(Block block) throws ProgramException {
        int code = block.motion;
        if (code >= 0) {
            switch (code) {
                case 0, 10 -> straight(block, code == 0);
                case 20, 30 -> arc(block, code);
                case 382, 383, 384, 385 -> probe(block, code);
                default -> cycles.run(block, code);
            }
        }
        int mode = block.g[Codes.MOTION] >= 0 ? block.g[Codes.MOTION] : code;
        if (mode >= 0) {
            c.setMotion(mode);
        }
    }

    private void straight(Block block, boolean rapid) throws ProgramException {
        if (block.g[Codes.NON_MODAL] == 530) {
            origins.machineMove(block, rapid);
            return;
        }
        inverseTimeNeedsFeed(block, rapid);
        double z = origins.end(block, 2);
        double x = origins.end(block, 0);
        double y = origins.end(block, 1);
        origins.know(block);
        if (compensation.on()) {
            compensation.straight(block, rapid, x, y, z);
        } else if (rapid) {
            c.traverse(x, y, z, 0);
        } else {
            c.feed(x, y, z, 0);
        }
    }

    private void inverseTimeNeedsFeed(Block block, boolean rapid) throws ProgramException {
        if (!rapid && c.feedMode == FeedMode.INVERSE_TIME && !(block.has('F') && block.value('F') > 0)) {
            throw block.error("inverse-time-feed", "a move at feed without its own F while G93 is in force")
                    .expecting("Expected F above 0 on every line with G1, G2 or G3.");
        }
    }

    private void arc(Block block, int code) throws ProgramException {
        inverseTimeNeedsFeed(block, false);
        Plane plane = c.plane;
        double[] to = {origins.end(block, 0), origins.end(block, 1), origins.end(block, 2)};
        origins.know(block);
        if (compensation.on()) {
            compensation.arc(block, code, to[0], to[1], to[2], arcs);
            return;
        }
        int first = plane.first();
        int second = plane.second();
        arcs.solve(block, code, c.position[first], c.position[second], to[first], to[second]);
        c.arc(arcs.endFirst, arcs.endSecond, to[plane.axial()], arcs.centreFirst, arcs.centreSecond, arcs.turn, 0);
    }

    private void probe(Block block, int code) throws ProgramException {
        if (c.comp != CutterComp.OFF) {
            throw block.error("probe-comp", "a probing move while radius compensation is on")
                    .expecting("Expected G40 first.");
        }
        if (c.feedMode == FeedMode.INVERSE_TIME) {
            throw block.error("probe-inverse-time", "a probing move while G93 is in force")
                    .expecting("Expected G94.");
        }
        if (c.spindle != SpindleTurn.STOPPED) {
            throw block.error("probe-spindle", "a probing move while the spindle turns")
                    .expecting("Expected M5 first.");
        }
        double[] from = c.position.clone();
        double[] to = {origins.end(block, 0), origins.end(block, 1), origins.end(block, 2)};
        double length = Arcs.hypot(Arcs.hypot(to[0] - from[0], to[1] - from[1]), to[2] - from[2]);
        if (length * c.scale() < SHORTEST_PROBE_MM) {
            throw block.error("probe-short", "a probing move of less than 0.254 mm")
                    .expecting("Expected an end farther away.");
        }
        origins.know(block);
        double trip = tripFraction(code, from, to);
        boolean tripped = trip >= 0;
        double t = tripped ? trip : 1;
        double[] end = new double[3];
        for (int axis = 0; axis < 3; axis++) {
            end[axis] = t == 1 ? to[axis] : from[axis] + t * (to[axis] - from[axis]);
        }
        c.probe(end[0], end[1], end[2], tripped ? CanonicalProgram.PROBE_TRIPPED : 0);
        c.note(NoteKind.PROBE, c.machineMm(2), Codes.nameOfG(code));
        for (int axis = 0; axis < 3; axis++) {
            c.parameters.set(Parameters.PROBE + axis, end[axis]);
            lastTrip[axis] = tripped ? c.machineMm(axis) : Double.NaN;
        }
        if (!tripped) {
            c.note(NoteKind.PROBE_NOT_TRIPPED, c.machineMm(2), "the probe never trips: the tool goes all the way");
            if (setup.missedProbeIsError() && (code == 382 || code == 384)) {
                throw block.error("probe-not-tripped", "the probing move ends without a trip")
                        .expecting("Expected the surface within the move.");
            }
        }
    }

    /** The fraction of the move at which the probe trips, or -1. */
    private double tripFraction(int code, double[] from, double[] to) {
        double[] a = new double[3];
        double[] b = new double[3];
        boolean atLastTrip = true;
        for (int axis = 0; axis < 3; axis++) {
            a[axis] = from[axis] * c.scale() + c.offsetMm(axis);
            b[axis] = to[axis] * c.scale() + c.offsetMm(axis);
            atLastTrip &= Math.abs(a[axis] - lastTrip[axis]) <= Arcs.SAME_POINT_MM;
        }
        if (code >= 384) {
            // Away from the surface: the contact opens as soon as the tool leaves the place where it touched.
            return atLastTrip ? 0 : -1;
        }
        OptionalDouble trip = setup.probeSurface().tripsAt(a[0], a[1], a[2], b[0], b[1], b[2], Math.max(0, c.tool));
        double t = trip.orElse(-1);
        return t >= 0 && t <= 1 ? t : -1;
    }

    private boolean stop(int code) {
        switch (code) {
            case 0, 60 -> {
                if (c.spindle != SpindleTurn.STOPPED) {
                    c.note(NoteKind.STOP_SPINDLE_ON, Double.NaN, "the program stops while the spindle turns");
                }
                c.command(CommandKind.PROGRAM_STOP);
            }
            case 1 -> {
                c.note(NoteKind.OPTIONAL_STOP, setup.optionalStop() ? 1 : 0, "M1");
                if (setup.optionalStop() && c.spindle != SpindleTurn.STOPPED) {
                    c.note(NoteKind.STOP_SPINDLE_ON, Double.NaN, "the program stops while the spindle turns");
                }
                c.command(CommandKind.OPTIONAL_STOP, setup.optionalStop() ? 1 : 0);
            }
            case 2, 30 -> {
                endProgram();
                return true;
            }
            default -> {}
        }
        return false;
    }

    /** What M2 and M30 put back: NISTIR 6556 section 3.6.1; the length offset is not in its list and stays. */
    void endProgram() {
        if (Codes.isCycle(c.motion)) {
            c.note(
                    NoteKind.CYCLE_LEFT_MODAL,
                    c.motion / 10.0,
                    Codes.nameOfG(c.motion) + " is still in force at the end");
        }
        if (c.g92Mm[0] != 0 || c.g92Mm[1] != 0 || c.g92Mm[2] != 0) {
            c.note(NoteKind.G92_LEFT, c.g92Mm[2], "a G92 offset is in force at the end");
        }
        c.note(NoteKind.ENDED_AT_Z, c.position[2] * c.scale(), "");
        origins.reset();
        c.plane = Plane.XY;
        c.incremental = false;
        c.feedMode = FeedMode.UNITS_PER_MINUTE;
        c.overrides = true;
        c.comp = CutterComp.OFF;
        c.compNumber = -1;
        c.compX = Double.NaN;
        c.compY = Double.NaN;
        c.setSpindle(SpindleTurn.STOPPED);
        c.mist = false;
        c.flood = false;
        c.command(CommandKind.COOLANT_OFF);
        c.setMotion(10);
        c.stateChanged = true;
        c.command(CommandKind.PROGRAM_END);
    }
}

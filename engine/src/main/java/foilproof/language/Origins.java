package foilproof.language;

/** Coordinate systems, the G92 family, homes and moves in machine coordinates: NISTIR 6556 sections 3.5.5 to 3.5.18. */
final class Origins {
    private final Controller c;
    private final Compensation compensation;

    Origins(Controller controller, Compensation compensation) {
        this.c = controller;
        this.compensation = compensation;
    }

    /** Where a block's words lead on an axis, program coordinates. */
    double end(Block block, int axis) {
        double from = axis == 2 || !compensation.on()
                ? c.position[axis]
                : axis == 0 ? compensation.programmedX() : compensation.programmedY();
        if (!block.hasAxis(axis)) {
            return from;
        }
        return c.incremental ? from + block.axis(axis) : block.axis(axis);
    }

    /** Axes that absolute words place are known from here on. */
    void know(Block block) {
        if (c.unknownAxes != 0 && !c.incremental) {
            for (int axis = 0; axis < 3; axis++) {
                if (block.hasAxis(axis)) {
                    c.unknownAxes &= ~(1 << axis);
                }
            }
        }
    }

    void setParameter(int number, double value) {
        c.parameters.set(number, value);
        if (number >= Parameters.G92 && number < 5390) {
            c.note(
                    NoteKind.ORIGIN_SET,
                    Math.max(0, (number - 5221) / 20 + 1),
                    "parameter #" + number + " is set: it counts from the next G54 to G59.3 or G92.3 on");
        }
    }

    void select(Block block) throws ProgramException {
        int code = block.g[Codes.SYSTEM];
        int system = code <= 590 ? (code - 540) / 10 + 1 : code - 590 + 6;
        if (c.systemSet ? system != c.system : true) {
            c.note(NoteKind.SYSTEM, system, Codes.nameOfG(code));
        }
        c.systemSet = true;
        use(system);
    }

    private void use(int system) {
        c.stateChanged |= system != c.system;
        c.system = system;
        c.parameters.set(Parameters.SYSTEM, system);
        for (int axis = 0; axis < 3; axis++) {
            c.setOriginMm(axis, c.parameters.get(Parameters.origin(system) + axis) * c.scale());
        }
        c.emitOrigin();
    }

    void nonModal(Block block) throws ProgramException {
        switch (block.g[Codes.NON_MODAL]) {
            case 100 -> setSystem(block);
            case 280 -> home(block, false);
            case 300 -> home(block, true);
            case 920 -> {
                for (int axis = 0; axis < 3; axis++) {
                    if (block.hasAxis(axis)) {
                        c.setG92Mm(axis, c.g92Mm[axis] + (c.position[axis] - block.axis(axis)) * c.scale());
                        c.position[axis] = block.axis(axis);
                        if (c.unknownAxes != 0) {
                            c.unknownAxes &= ~(1 << axis);
                        }
                    }
                    c.parameters.set(Parameters.G92 + axis, c.g92Mm[axis] / c.scale());
                }
                changedG92();
            }
            case 921, 922 -> {
                clearG92(block.g[Codes.NON_MODAL] == 921);
                c.emitOrigin();
            }
            case 923 -> {
                for (int axis = 0; axis < 3; axis++) {
                    c.setG92Mm(axis, c.parameters.get(Parameters.G92 + axis) * c.scale());
                }
                changedG92();
            }
            default -> {}
        }
    }

    private void changedG92() {
        c.stateChanged = true;
        c.note(NoteKind.G92_IN_FORCE, c.g92Mm[2], "an offset of the G92 family is in force from here");
        c.emitOrigin();
    }

    private void clearG92(boolean parametersToo) {
        for (int axis = 0; axis < 3; axis++) {
            c.setG92Mm(axis, 0);
            if (parametersToo) {
                c.parameters.set(Parameters.G92 + axis, 0);
            }
        }
        c.stateChanged = true;
    }

    private void setSystem(Block block) throws ProgramException {
        int kind = block.has('L') ? BlockReader.nearInteger(block.value('L')) : 0;
        boolean common = c.setup.dialect() == Dialect.COMMON;
        if (kind != 2 && !(kind == 20 && common)) {
            throw block.error("g10", 'L', "G10 without L2" + (common ? " or L20" : ""))
                    .expecting("Expected G10 L2 P1 X0 Y0.");
        }
        int system = block.has('P') ? BlockReader.nearInteger(block.value('P')) : 0;
        if (system < 1 || system > 9) {
            throw block.error("g10", 'P', "P of G10 names no coordinate system")
                    .expecting("Expected P1 to P9 (G54 is P1).");
        }
        for (int axis = 0; axis < 3; axis++) {
            if (!block.hasAxis(axis)) {
                continue;
            }
            double mm = block.axis(axis) * c.scale();
            if (kind == 20) {
                mm = c.machineMm(axis) - c.g92Mm[axis] - (axis == 2 ? c.lengthMm : 0) - mm;
            }
            c.parameters.set(Parameters.origin(system) + axis, mm / c.scale());
            if (system == c.system) {
                c.setOriginMm(axis, mm);
                if (kind == 20) {
                    c.position[axis] = block.axis(axis);
                }
            }
        }
        c.note(NoteKind.ORIGIN_SET, system, "G10 L" + kind);
        if (system == c.system) {
            c.emitOrigin();
        }
    }

    private void home(Block block, boolean second) throws ProgramException {
        boolean known = c.setup.machineKnown() && c.setup.homeKnown(second);
        if (!c.setup.machineKnown()) {
            c.note(NoteKind.MACHINE_POSITION_UNKNOWN, Double.NaN, second ? "G30" : "G28");
        }
        if (!c.setup.homeKnown(second)) {
            c.note(NoteKind.HOME_UNKNOWN, Double.NaN, second ? "G30" : "G28");
        }
        boolean all = c.setup.dialect() == Dialect.STRICT || !block.hasAxis();
        if (block.hasAxis()) {
            double x = end(block, 0);
            double y = end(block, 1);
            double z = end(block, 2);
            know(block);
            c.traverse(x, y, z, 0);
        }
        double[] to = c.position.clone();
        int first = second ? Parameters.HOME_30 : Parameters.HOME_28;
        for (int axis = 0; axis < 3; axis++) {
            if (all || block.hasAxis(axis)) {
                to[axis] = c.parameters.get(first + axis) - c.offsetMm(axis) / c.scale();
                c.unknownAxes = known ? c.unknownAxes & ~(1 << axis) : c.unknownAxes | 1 << axis;
            }
        }
        c.traverse(to[0], to[1], to[2], CanonicalProgram.MACHINE_COORDINATES);
    }

    /** G53: the words are machine coordinates. */
    void machineMove(Block block, boolean rapid) throws ProgramException {
        double[] to = c.position.clone();
        boolean known = c.setup.machineKnown();
        if (!known) {
            c.note(NoteKind.MACHINE_POSITION_UNKNOWN, Double.NaN, "G53");
        }
        for (int axis = 0; axis < 3; axis++) {
            if (block.hasAxis(axis)) {
                to[axis] = block.axis(axis) - c.offsetMm(axis) / c.scale();
                c.unknownAxes = known ? c.unknownAxes & ~(1 << axis) : c.unknownAxes | 1 << axis;
            }
        }
        if (rapid) {
            c.traverse(to[0], to[1], to[2], CanonicalProgram.MACHINE_COORDINATES);
        } else {
            if (c.feedMode == FeedMode.INVERSE_TIME && !block.has('F')) {
                throw block.error("inverse-time-feed", "a move at feed without its own F while G93 is in force")
                        .expecting("Expected F on every line with G1, G2 or G3.");
            }
            c.feed(to[0], to[1], to[2], CanonicalProgram.MACHINE_COORDINATES);
        }
    }

    /** What M2 and M30 put back: G92 offsets as by G92.2, system 1. */
    void reset() {
        clearG92(false);
        use(1);
    }
}

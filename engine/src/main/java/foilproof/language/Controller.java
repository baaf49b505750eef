package foilproof.language;

/**
 * The controller's state while a program runs, and the writing of canonical commands. Positions are kept in program
 * units, as the text counts them; offsets in millimetres, so that a change of units moves no origin.
 */
final class Controller {
    /** Nothing on a bench is farther away: a coordinate beyond it is an error, and no later sum can overflow. */
    static final double FARTHEST_MM = 1e6;

    final InterpreterSetup setup;
    final Parameters parameters = new Parameters();
    final Notes notes;
    final CanonicalProgram program;

    /** Position in program coordinates and units. */
    final double[] position = new double[3];

    final double[] originMm = new double[3];
    final double[] g92Mm = new double[3];
    double lengthMm;
    int lengthNumber;

    LengthUnits units;
    boolean incremental;
    boolean arcCentresAbsolute;
    Plane plane = Plane.XY;
    FeedMode feedMode = FeedMode.UNITS_PER_MINUTE;
    double feedNumber = Double.NaN;
    double feedMmPerMin = Double.NaN;
    SpindleTurn spindle = SpindleTurn.STOPPED;
    double speedRpm = Double.NaN;
    int tool;
    int selectedTool = -1;
    int system = 1;
    CutterComp comp = CutterComp.OFF;
    int compNumber = -1;
    double compRadiusMm;
    PathMode pathMode = PathMode.UNSET;
    double pathToleranceMm = Double.NaN;
    boolean retractToOldZ = true;
    boolean mist;
    boolean flood;
    boolean overrides = true;
    int motion = 800;

    /** Bit a set: nobody knows where axis a stands. */
    int unknownAxes;

    /** The programmed point of a compensated path, program units; NaN until the first move of a compensated stretch. */
    double compX = Double.NaN;

    double compY = Double.NaN;

    boolean distanceSet;
    boolean unitsSet;
    boolean planeSet;
    boolean feedModeSet;
    boolean compSet;
    boolean lengthSet;
    boolean systemSet;
    boolean stateChanged;

    private final CommandFacts facts = new CommandFacts(this);
    private int frame = -1;
    private int line;
    private int span;

    Controller(InterpreterSetup setup, String file, int expectedCommands) {
        this.setup = setup;
        this.notes = new Notes(file);
        this.program =
                new CanonicalProgram(file, setup.startMm(0), setup.startMm(1), setup.startMm(2), expectedCommands);
        units = setup.initialUnits();
        tool = setup.initialTool();
        incremental = setup.initialIncremental();
        plane = setup.initialPlane();
        feedMode = setup.initialFeedMode();
        motion = setup.initialMotionTenths();
        presetParameters();
        for (int axis = 0; axis < 3; axis++) {
            originMm[axis] = parameters.get(Parameters.origin(system) + axis) * scale();
            position[axis] = (setup.startMm(axis) - offsetMm(axis)) / scale();
        }
        unknownAxes = setup.startKnown() ? 0 : 7;
    }

    private void presetParameters() {
        for (int axis = 0; axis < 3; axis++) {
            for (int s = 1; s <= 9; s++) {
                parameters.set(Parameters.origin(s) + axis, setup.originMm(s, axis) / scale());
            }
            parameters.set(Parameters.HOME_28 + axis, setup.homeMm(false, axis) / scale());
            parameters.set(Parameters.HOME_30 + axis, setup.homeMm(true, axis) / scale());
        }
        parameters.set(Parameters.SYSTEM, 1);
        double[] given = setup.parameters();
        for (int i = 1; i < given.length; i++) {
            if (!Double.isNaN(given[i])) {
                parameters.set(i, given[i]);
            }
        }
        int preset = BlockReader.nearInteger(parameters.get(Parameters.SYSTEM));
        system = preset >= 1 && preset <= 9 ? preset : 1;
    }

    /** Whether parameter 5220 names a system. */
    boolean systemParameterSound() {
        double preset = parameters.get(Parameters.SYSTEM);
        return preset == Math.rint(preset) && preset >= 1 && preset <= 9;
    }

    void begin(int newLine, int newSpan) {
        line = newLine;
        span = newSpan;
    }

    /** An F word; {@code mmPerUnit} of its line. */
    void setFeed(double value, double mmPerUnit) {
        double feed = value;
        feedNumber = value;
        if (feedMode == FeedMode.UNITS_PER_MINUTE) {
            feed = value * mmPerUnit;
            if (feed != feedMmPerMin) {
                note(NoteKind.FEED_CHANGED, feed, "");
                feedMmPerMin = feed;
                stateChanged = true;
            }
        }
        command(CommandKind.SET_FEED, feed);
    }

    int line() {
        return line;
    }

    double scale() {
        return units.mmPerUnit();
    }

    /** All offsets on an axis: machine position = program position x scale + offset. */
    double offsetMm(int axis) {
        double sum = originMm[axis] + g92Mm[axis];
        return axis == 2 ? sum + lengthMm : sum;
    }

    double machineMm(int axis) {
        return position[axis] * scale() + offsetMm(axis);
    }

    /** Changes offsets while the axes stay: the position reads anew. */
    void shiftOrigin(int axis, double oldOffsetMm) {
        double change = oldOffsetMm - offsetMm(axis);
        if (change != 0) {
            position[axis] += change / scale();
        }
        frame = -1;
    }

    void setOriginMm(int axis, double mm) {
        double old = offsetMm(axis);
        originMm[axis] = mm;
        shiftOrigin(axis, old);
    }

    void setG92Mm(int axis, double mm) {
        double old = offsetMm(axis);
        g92Mm[axis] = mm;
        shiftOrigin(axis, old);
    }

    void setLengthMm(double mm, int number) {
        double old = offsetMm(2);
        lengthMm = mm;
        lengthNumber = number;
        shiftOrigin(2, old);
        stateChanged = true;
        command(CommandKind.LENGTH_OFFSET, mm);
        emitOrigin();
    }

    void emitOrigin() {
        program.addOrigin(line, span, frame());
    }

    void setUnits(LengthUnits to) {
        unitsSet = true;
        if (units == to) {
            command(CommandKind.USE_UNITS, to.ordinal());
            return;
        }
        double factor = scale() / to.mmPerUnit();
        if (factor != 1) {
            for (int axis = 0; axis < 3; axis++) {
                position[axis] *= factor;
            }
            compX *= factor;
            compY *= factor;
            parameters.convertLengths(factor);
            if (program.motionCount() > 0) {
                note(
                        NoteKind.UNITS_CHANGED,
                        Double.NaN,
                        "units change to " + (to == LengthUnits.MM ? "mm" : "inch")
                                + " after axes have moved: numbers kept from before keep their digits, origins stay where they are");
            }
        }
        units = to;
        frame = -1;
        stateChanged = true;
        command(CommandKind.USE_UNITS, to.ordinal());
    }

    void command(CommandKind kind) {
        program.add(kind, line, span);
    }

    void command(CommandKind kind, double value) {
        program.add(kind, line, span, value, Double.NaN);
    }

    void command(CommandKind kind, double value, double value2) {
        program.add(kind, line, span, value, value2);
    }

    void text(CommandKind kind, String text) {
        program.addText(kind, line, span, text);
    }

    void note(NoteKind kind, double value, String text) {
        notes.add(kind, line, span, value, text);
    }

    void setPathMode(PathMode mode, double toleranceMm) {
        stateChanged |= pathMode != mode || Double.compare(pathToleranceMm, toleranceMm) != 0;
        pathMode = mode;
        pathToleranceMm = toleranceMm;
        command(CommandKind.SET_PATH_MODE, mode.ordinal(), toleranceMm);
    }

    void setSpindle(SpindleTurn turn) {
        stateChanged |= spindle != turn;
        spindle = turn;
        command(
                switch (turn) {
                    case STOPPED -> CommandKind.SPINDLE_STOP;
                    case CLOCKWISE -> CommandKind.SPINDLE_CLOCKWISE;
                    default -> CommandKind.SPINDLE_COUNTERCLOCKWISE;
                });
    }

    void traverse(double x, double y, double z, int flags) throws ProgramException {
        move(CommandKind.STRAIGHT_TRAVERSE, x, y, z, Double.NaN, flags);
    }

    /** A move at feed; {@code lastOfLine}: the inverse time of a line belongs to its whole path. */
    void feed(double x, double y, double z, int flags) throws ProgramException {
        facts.feedMove();
        move(CommandKind.STRAIGHT_FEED, x, y, z, feedOfMove(), flags);
    }

    void probe(double x, double y, double z, int flags) throws ProgramException {
        facts.feedMove();
        move(CommandKind.STRAIGHT_PROBE, x, y, z, feedOfMove(), flags);
    }

    /** An arc in the plane in force; end and centre in its two axes, program coordinates. */
    void arc(double first, double second, double axial, double centreFirst, double centreSecond, int turn, int flags)
            throws ProgramException {
        facts.feedMove();
        double[] end = new double[3];
        end[plane.first()] = first;
        end[plane.second()] = second;
        end[plane.axial()] = axial;
        if (!(Math.abs(centreFirst) * scale() <= 1000 * FARTHEST_MM
                && Math.abs(centreSecond) * scale() <= 1000 * FARTHEST_MM)) {
            throw tooFar();
        }
        move(CommandKind.ARC_FEED, end[0], end[1], end[2], feedOfMove(), flags);
        program.makeArc(plane, centreFirst, centreSecond, turn);
    }

    /** Inverse time share of the move that comes next, 1 where the line is one move. */
    double timeShare = 1;

    private double feedOfMove() {
        return feedMode == FeedMode.INVERSE_TIME ? -60 / feedNumber * timeShare : feedMmPerMin;
    }

    private void move(CommandKind kind, double x, double y, double z, double feed, int flags) throws ProgramException {
        facts.anyMove(flags);
        int f = frame();
        if (!(Math.abs(x * scale() + offsetMm(0)) <= FARTHEST_MM
                && Math.abs(y * scale() + offsetMm(1)) <= FARTHEST_MM
                && Math.abs(z * scale() + offsetMm(2)) <= FARTHEST_MM)) {
            throw tooFar();
        }
        if (program.motionCount() >= setup.limits().motions()) {
            throw new ProgramException(
                            "too-many-moves",
                            span >>> 16,
                            span & 0xffff,
                            "more than " + setup.limits().motions() + " moves")
                    .expecting("Expected a program of fewer moves.");
        }
        program.addMotion(kind, line, span, x, y, z, f, feed, flags | unknownAxes << 4);
        position[0] = x;
        position[1] = y;
        position[2] = z;
    }

    private ProgramException tooFar() {
        return new ProgramException("coordinate-too-large", span >>> 16, span & 0xffff, "a move to more than 1 km away")
                .expecting("Expected coordinates of a bench.");
    }

    private int frame() {
        if (frame < 0) {
            frame = program.frame(scale(), offsetMm(0), offsetMm(1), offsetMm(2));
        }
        return frame;
    }

    void setMotion(int code) {
        if (motion != code) {
            motion = code;
            stateChanged = true;
        }
    }

    ModalState snapshot() {
        boolean g92 = g92Mm[0] != 0 || g92Mm[1] != 0 || g92Mm[2] != 0;
        return new ModalState(
                motion,
                units,
                incremental,
                arcCentresAbsolute,
                plane,
                feedMode,
                feedMmPerMin,
                spindle,
                speedRpm,
                tool,
                selectedTool,
                system,
                comp,
                compNumber,
                lengthMm,
                lengthNumber,
                pathMode,
                pathToleranceMm,
                retractToOldZ,
                mist,
                flood,
                overrides,
                g92);
    }
}

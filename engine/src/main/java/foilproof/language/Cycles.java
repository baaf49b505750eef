package foilproof.language;

/**
 * Canned cycles G81 to G89 (NISTIR 6556 section 3.5.16) and G73 of the common language. R, Z, P, Q, I, J and K are
 * kept as the numbers that were written while lines of the same cycle follow each other, and read anew in the distance
 * mode then in force.
 */
final class Cycles {
    private static final int FLAGS = CanonicalProgram.IN_CYCLE;

    private final Controller c;
    private double clearNumber;
    private double bottomNumber;
    private double dwell;
    private double peck;
    private double offsetFirst;
    private double offsetSecond;
    private double backBore;

    private final double[] at = new double[3];
    private double clear;
    private double bottom;
    private double retract;

    Cycles(Controller controller) {
        this.c = controller;
    }

    void run(Block block, int code) throws ProgramException {
        if (c.feedMode == FeedMode.INVERSE_TIME) {
            throw block.error("cycle-inverse-time", "a canned cycle while G93 is in force")
                    .expecting("Expected G94.");
        }
        if (c.comp != CutterComp.OFF) {
            throw block.error("cycle-comp", "a canned cycle while radius compensation is on")
                    .expecting("Expected G40 first.");
        }
        if (!block.hasAxis()) {
            throw block.error("axis-missing", "a canned cycle without X, Y and Z")
                    .expecting("Expected at least one of them.");
        }
        boolean again = c.motion == code;
        readNumbers(block, code, again);
        int repeats = 1;
        if (block.has('L')) {
            repeats = BlockReader.nearInteger(block.value('L'));
            if (repeats < 1) {
                throw block.error("cycle-repeats", 'L', "L of a cycle counts how often")
                        .expecting("Expected a whole number of 1 or more.");
            }
        }
        if (code == 840 && c.spindle != SpindleTurn.CLOCKWISE) {
            throw block.error("cycle-spindle", "G84 while the spindle does not turn clockwise")
                    .expecting("Expected M3 first.");
        }
        if ((code == 860 || code == 870 || code == 880) && c.spindle == SpindleTurn.STOPPED) {
            throw block.error("cycle-spindle", Codes.nameOfG(code) + " while the spindle does not turn")
                    .expecting("Expected M3 or M4 first.");
        }
        place(block, code, repeats);
    }

    private void readNumbers(Block block, int code, boolean again) throws ProgramException {
        char axialLetter = (char) ('X' + c.plane.axial());
        clearNumber = sticky(block, 'R', clearNumber, again);
        bottomNumber = sticky(block, axialLetter, bottomNumber, again);
        if (code == 820 || code == 860 || code == 880 || code == 890) {
            dwell = sticky(block, 'P', dwell, again);
            if (dwell < 0) {
                throw block.error("dwell", 'P', "a negative dwell").expecting("Expected P of 0 or more.");
            }
        }
        if (code == 830 || code == 730) {
            peck = sticky(block, 'Q', peck, again);
            if (!(peck > 0)) {
                throw block.error("cycle-peck", 'Q', "a peck of zero or less").expecting("Expected Q above 0.");
            }
        }
        if (code == 870) {
            offsetFirst = sticky(block, (char) ('I' + c.plane.first()), offsetFirst, again);
            offsetSecond = sticky(block, (char) ('I' + c.plane.second()), offsetSecond, again);
            backBore = sticky(block, (char) ('I' + c.plane.axial()), backBore, again);
        }
    }

    private double sticky(Block block, char letter, double kept, boolean again) throws ProgramException {
        if (block.has(letter)) {
            return block.value(letter);
        }
        if (!again) {
            throw block.error("cycle-word-missing", "the first line of a cycle has no " + letter)
                    .expecting("Expected " + letter + "; later lines of the same cycle may leave it out.");
        }
        return kept;
    }

    private void place(Block block, int code, int repeats) throws ProgramException {
        int first = c.plane.first();
        int second = c.plane.second();
        int axial = c.plane.axial();
        double stepFirst = 0;
        double stepSecond = 0;
        System.arraycopy(c.position, 0, at, 0, 3);
        if (c.incremental) {
            stepFirst = block.hasAxis(first) ? block.axis(first) : 0;
            stepSecond = block.hasAxis(second) ? block.axis(second) : 0;
            clear = clearNumber + c.position[axial];
            bottom = clear + bottomNumber;
        } else {
            at[first] = block.hasAxis(first) ? block.axis(first) : at[first];
            at[second] = block.hasAxis(second) ? block.axis(second) : at[second];
            clear = clearNumber;
            bottom = bottomNumber;
            c.unknownAxes &=
                    ~((block.hasAxis(first) ? 1 << first : 0) | (block.hasAxis(second) ? 1 << second : 0) | 1 << axial);
        }
        if (clear < bottom) {
            throw block.error("cycle-r-below-z", 'R', "R of the cycle lies below its Z")
                    .expecting("Expected R above Z.");
        }
        tell(block, code, axial);
        double old = c.position[axial];
        retract = c.retractToOldZ && old > clear ? old : clear;
        PathMode mode = c.pathMode;
        double tolerance = c.pathToleranceMm;
        if (mode != PathMode.EXACT_PATH) {
            c.setPathMode(PathMode.EXACT_PATH, Double.NaN);
        }
        if (old < clear) {
            double[] lift = c.position.clone();
            lift[axial] = clear;
            c.traverse(lift[0], lift[1], lift[2], FLAGS);
        }
        for (int i = 0; i < repeats; i++) {
            at[first] += stepFirst;
            at[second] += stepSecond;
            traverse(c.position[axial]);
            if (c.position[axial] != clear) {
                traverse(clear);
            }
            hole(code);
        }
        if (mode != PathMode.EXACT_PATH) {
            c.setPathMode(mode, tolerance);
        }
    }

    private void tell(Block block, int code, int axial) {
        if (block.g[Codes.MOTION] < 0) {
            c.note(NoteKind.CYCLE_REPEATED, at[0] * c.scale(), "axis words alone repeat " + Codes.nameOfG(code));
        } else {
            c.note(NoteKind.CYCLE, clear * c.scale(), Codes.nameOfG(code) + (c.retractToOldZ ? " G98" : " G99"));
        }
        if (block.has('Q')) {
            c.note(NoteKind.CYCLE_PECK, peck * c.scale(), Codes.nameOfG(code));
        }
        if (axial != 2) {
            c.note(NoteKind.CYCLE, clear * c.scale(), "the cycle does not work along Z");
        }
    }

    private void hole(int code) throws ProgramException {
        switch (code) {
            case 810 -> {
                feed(bottom);
                traverse(retract);
            }
            case 820 -> {
                feed(bottom);
                dwell();
                traverse(retract);
            }
            case 830, 730 -> pecks(code == 830);
            case 840 -> tap();
            case 850 -> {
                feed(bottom);
                feed(retract);
            }
            case 860, 880 -> boreAndStop(code == 880);
            case 870 -> backBore();
            default -> {
                feed(bottom);
                dwell();
                feed(retract);
            }
        }
    }

    private void pecks(boolean clearing) throws ProgramException {
        double backOff = c.setup.peckBackOffMm() / c.scale();
        for (int n = 1; ; n++) {
            double depth = clear - n * peck;
            if (!(depth > bottom)) {
                break;
            }
            feed(depth);
            if (clearing) {
                traverse(retract);
                traverse(Math.min(clear, depth + backOff));
            } else {
                traverse(Math.min(clear, depth + backOff));
            }
        }
        feed(bottom);
        traverse(retract);
    }

    private void tap() throws ProgramException {
        c.command(CommandKind.SYNCHRONIZE, 1);
        feed(bottom);
        c.setSpindle(SpindleTurn.STOPPED);
        c.setSpindle(SpindleTurn.COUNTERCLOCKWISE);
        feed(retract);
        c.command(CommandKind.SYNCHRONIZE, 0);
        c.setSpindle(SpindleTurn.STOPPED);
        c.setSpindle(SpindleTurn.CLOCKWISE);
    }

    private void boreAndStop(boolean byHand) throws ProgramException {
        SpindleTurn turn = c.spindle;
        feed(bottom);
        dwell();
        c.setSpindle(SpindleTurn.STOPPED);
        if (byHand) {
            c.command(CommandKind.PROGRAM_STOP);
        }
        traverse(retract);
        c.setSpindle(turn);
    }

    private void backBore() throws ProgramException {
        SpindleTurn turn = c.spindle;
        int first = c.plane.first();
        int second = c.plane.second();
        double[] aside = at.clone();
        aside[first] += offsetFirst;
        aside[second] += offsetSecond;
        double middle = c.incremental ? bottom + backBore : backBore;
        double height = c.position[c.plane.axial()];
        traverse(aside, height);
        orient();
        traverse(aside, bottom);
        traverse(at, bottom);
        c.setSpindle(turn);
        feed(middle);
        feed(bottom);
        orient();
        traverse(aside, bottom);
        traverse(aside, retract);
        traverse(at, retract);
        c.setSpindle(turn);
    }

    private void orient() {
        c.spindle = SpindleTurn.STOPPED;
        c.stateChanged = true;
        c.command(CommandKind.SPINDLE_ORIENT);
    }

    private void dwell() {
        c.command(CommandKind.DWELL, dwell * c.setup.dwellUnitS());
    }

    private void traverse(double axialPosition) throws ProgramException {
        traverse(at, axialPosition);
    }

    private void traverse(double[] place, double axialPosition) throws ProgramException {
        int axial = c.plane.axial();
        c.traverse(
                axial == 0 ? axialPosition : place[0],
                axial == 1 ? axialPosition : place[1],
                axial == 2 ? axialPosition : place[2],
                FLAGS);
    }

    private void feed(double axialPosition) throws ProgramException {
        int axial = c.plane.axial();
        c.feed(
                axial == 0 ? axialPosition : at[0],
                axial == 1 ? axialPosition : at[1],
                axial == 2 ? axialPosition : at[2],
                FLAGS);
    }
}

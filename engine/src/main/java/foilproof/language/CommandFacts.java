package foilproof.language;

/** Notes what the first moves of a program rely on without having said it. */
final class CommandFacts {
    private final Controller controller;
    private boolean moved;
    private boolean fed;
    private boolean feedMissingTold;
    private boolean incrementalTold;

    CommandFacts(Controller controller) {
        this.controller = controller;
    }

    /** Called before every move; {@code flags} as in {@link CanonicalProgram}. */
    void anyMove(int flags) {
        if ((flags & CanonicalProgram.MACHINE_COORDINATES) != 0) {
            // a retract in machine coordinates relies on none of what follows
            return;
        }
        if (controller.incremental) {
            if (!incrementalTold) {
                incrementalTold = true;
                controller.note(
                        NoteKind.INCREMENTAL_STRETCH, Double.NaN, "moves count from where the axes stand (G91)");
            }
        } else {
            incrementalTold = false;
        }
        if (!moved) {
            moved = true;
            firstMove();
        }
    }

    private void firstMove() {
        Controller c = controller;
        if (!c.unitsSet) {
            if (c.units == LengthUnits.UNKNOWN) {
                c.note(
                        NoteKind.UNITS_UNSET,
                        Double.NaN,
                        "axes move before G20 or G21: nobody knows in which units; run as mm");
            } else {
                c.note(
                        NoteKind.UNITS_BY_DEFAULT,
                        Double.NaN,
                        "axes move before G20 or G21: the machine's own default counts");
            }
        }
        if (!c.distanceSet) {
            c.note(NoteKind.DISTANCE_UNSET, Double.NaN, "axes move before G90 or G91: G90 is assumed");
        }
        if (!c.systemSet) {
            c.note(NoteKind.SYSTEM_UNSET, c.system, "no work coordinate system is named before the first move");
        }
        if (!c.lengthSet) {
            c.note(
                    NoteKind.STATE_CARRIED_OVER,
                    49,
                    "no G43 or G49 before the first move: a length offset of an earlier job would count");
        }
        if (!c.compSet) {
            c.note(
                    NoteKind.STATE_CARRIED_OVER,
                    40,
                    "no G40 before the first move: compensation of an earlier job would count");
        }
        if (!c.planeSet) {
            c.note(
                    NoteKind.STATE_CARRIED_OVER,
                    17,
                    "no G17, G18 or G19 before the first move: the plane of an earlier job would count");
        }
        if (!c.feedModeSet) {
            c.note(
                    NoteKind.STATE_CARRIED_OVER,
                    94,
                    "no G93 or G94 before the first move: the feed mode of an earlier job would count");
        }
    }

    /** Called before every move at feed. */
    void feedMove() {
        Controller c = controller;
        if (!fed) {
            fed = true;
            if (c.pathMode == PathMode.UNSET) {
                c.note(NoteKind.PATH_MODE_UNSET, Double.NaN, "no G61, G61.1 or G64 before the first move at feed");
            }
        }
        boolean missing = c.feedMode == FeedMode.UNITS_PER_MINUTE && !(c.feedMmPerMin > 0);
        if (missing && !feedMissingTold) {
            c.note(
                    NoteKind.FEED_UNSET,
                    0,
                    Double.isNaN(c.feedMmPerMin) ? "a move at feed before any F" : "a move at feed 0");
        }
        feedMissingTold = missing;
    }
}

package foilproof.language;

/** Finds centre and turn of the arcs of G2 and G3: NISTIR 6556 section 3.5.3. All lengths in program units. */
final class Arcs {
    /** Start and end nearer than this are one point: far below the last digit of any program. */
    static final double SAME_POINT_MM = 1e-6;

    double centreFirst;
    double centreSecond;
    double endFirst;
    double endSecond;
    int turn;

    private final Controller c;

    Arcs(Controller controller) {
        this.c = controller;
    }

    /**
     * Solves the arc of a block from the given start in the plane's two axes.
     *
     * @param code 20 or 30
     */
    void solve(Block block, int code, double startFirst, double startSecond, double toFirst, double toSecond)
            throws ProgramException {
        turn = code == 30 ? 1 : -1;
        endFirst = toFirst;
        endSecond = toSecond;
        double chord = hypot(toFirst - startFirst, toSecond - startSecond);
        if (chord * c.scale() <= SAME_POINT_MM) {
            endFirst = startFirst;
            endSecond = startSecond;
            chord = 0;
        }
        checkWords(block);
        if (block.has('R')) {
            byRadius(block, startFirst, startSecond, chord);
        } else {
            byCentre(block, startFirst, startSecond);
        }
    }

    private void checkWords(Block block) throws ProgramException {
        char first = (char) ('X' + c.plane.first());
        char second = (char) ('X' + c.plane.second());
        char offsetFirst = (char) ('I' + c.plane.first());
        char offsetSecond = (char) ('I' + c.plane.second());
        char offsetAxial = (char) ('I' + c.plane.axial());
        boolean ends = block.has(first) || block.has(second);
        boolean offsets = block.has(offsetFirst) || block.has(offsetSecond);
        if (block.has('R')) {
            if (offsets || block.has(offsetAxial)) {
                throw block.error("arc-form", 'R', "an arc with both R and I, J or K")
                        .expecting("Expected one or the other.");
            }
            if (!ends) {
                throw block.error("arc-end", "an arc by radius without " + first + " and " + second)
                        .expecting("Expected its end point.");
            }
            return;
        }
        if (block.has(offsetAxial)) {
            throw block.error("arc-plane", offsetAxial, "the word " + offsetAxial + " lies across the plane of the arc")
                    .expecting(
                            "Expected " + offsetFirst + " and " + offsetSecond + ", or another plane (G17, G18, G19).");
        }
        if (!offsets) {
            throw block.error("arc-centre", "an arc without radius and without centre")
                    .expecting("Expected R, or " + offsetFirst + " and " + offsetSecond + ".");
        }
        if (!ends && c.setup.dialect() == Dialect.STRICT) {
            throw block.error("arc-end", "an arc without " + first + " and " + second)
                    .expecting("Expected at least one of them, also for a full circle.");
        }
        if (c.arcCentresAbsolute && !(block.has(offsetFirst) && block.has(offsetSecond))) {
            throw block.error("arc-centre", "an arc centre with one coordinate while G90.1 is in force")
                    .expecting("Expected both " + offsetFirst + " and " + offsetSecond + ".");
        }
    }

    private void byRadius(Block block, double startFirst, double startSecond, double chord) throws ProgramException {
        double radius = block.value('R');
        double size = Math.abs(radius);
        if (chord == 0) {
            throw block.error("arc-radius", 'R', "an arc by radius whose end is its start")
                    .expecting("Expected the centre form (I, J) for a full circle.");
        }
        double half = chord / 2;
        double excess = half - size;
        if (excess > toleranceMm(size * c.scale()) / c.scale() || size == 0) {
            throw block.error(
                            "arc-radius", 'R', "the radius is too small: the end is farther away than twice the radius")
                    .expecting("Expected |R| of at least half the way from start to end.");
        }
        double height = excess >= 0 ? 0 : Math.sqrt((size - half) * (size + half));
        boolean centreOnLeft = turn > 0 == radius > 0;
        double ux = (endFirst - startFirst) / chord;
        double uy = (endSecond - startSecond) / chord;
        double side = centreOnLeft ? height : -height;
        centreFirst = (startFirst + endFirst) / 2 - side * uy;
        centreSecond = (startSecond + endSecond) / 2 + side * ux;
        double sweep = Math.toDegrees(2 * StrictMath.asin(Math.min(1, half / size)));
        sweep = radius > 0 ? sweep : 360 - sweep;
        if (sweep > 165 && sweep < 195 || sweep > 345) {
            c.note(
                    NoteKind.ARC_BY_RADIUS_FRAGILE,
                    sweep,
                    "an arc by radius whose centre hangs on the last digits of its end point");
        }
        if (excess > 0) {
            c.note(NoteKind.ARC_RADIUS_ERROR, excess * c.scale(), "the chord is longer than twice the radius");
        }
    }

    private void byCentre(Block block, double startFirst, double startSecond) throws ProgramException {
        char first = (char) ('I' + c.plane.first());
        char second = (char) ('I' + c.plane.second());
        if (c.arcCentresAbsolute) {
            centreFirst = block.value(first);
            centreSecond = block.value(second);
        } else {
            centreFirst = startFirst + block.value(first, 0);
            centreSecond = startSecond + block.value(second, 0);
        }
        double startRadius = hypot(startFirst - centreFirst, startSecond - centreSecond);
        double endRadius = hypot(endFirst - centreFirst, endSecond - centreSecond);
        if (startRadius * c.scale() <= SAME_POINT_MM) {
            throw block.error("arc-radius", first, "an arc of radius zero")
                    .expecting("Expected a centre away from the start.");
        }
        double differenceMm = Math.abs(startRadius - endRadius) * c.scale();
        double toleranceMm = toleranceMm(startRadius * c.scale());
        // A difference of just the tolerance is within it: 1e-9 mm covers the rounding of decimal input.
        if (differenceMm > toleranceMm + 1e-9) {
            throw block.error(
                            "arc-radii",
                            first,
                            String.format(
                                    java.util.Locale.ROOT,
                                    "the radius is %.4f mm at the arc's start and %.4f mm at its end: they differ by %.4f mm",
                                    startRadius * c.scale(),
                                    endRadius * c.scale(),
                                    differenceMm))
                    .expecting(String.format(
                            java.util.Locale.ROOT,
                            "Expected a difference of at most %.4f mm%s.",
                            toleranceMm,
                            c.arcCentresAbsolute ? "" : "; if the centre is meant absolute, say G90.1"));
        }
        if (differenceMm > SAME_POINT_MM) {
            c.note(NoteKind.ARC_RADIUS_ERROR, differenceMm, "the radii at the arc's start and end differ");
        }
        if (startFirst == endFirst && startSecond == endSecond) {
            c.note(NoteKind.FULL_CIRCLE, startRadius * c.scale(), "start and end are one point: a full circle");
        }
    }

    /** How far the two radii of an arc may differ: strict as published, common as the job's contract says. */
    double toleranceMm(double radiusMm) {
        return c.setup.dialect().arcToleranceMm(radiusMm, c.units);
    }

    static double hypot(double a, double b) {
        return Math.sqrt(a * a + b * b);
    }
}

package foilproof.design;

import foilproof.bench.DesignFiles;
import foilproof.bench.Face;
import foilproof.bench.Job;
import foilproof.bench.JobMove;
import foilproof.bench.Turn;
import java.util.ArrayList;
import java.util.List;

/**
 * Where the design lies on the blank, side by side. Frames: <em>design</em> is as drawn, seen from the board's
 * top; <em>blank on side k</em> has its zero at the blank's lower-left corner as it lies on that side. The
 * design is turned counter-clockwise about its zero by whole quarters, shifted by {@code placed_at}, and then:
 * face "top" up first (x, y) to (px + x, py + y); face "bottom" up first to (W - px - x, py + y); every later
 * side turns the blank over about Y (X to W - X) or X (Y to H - Y).
 */
public final class Placement {
    /**
     * One side as the job states it.
     *
     * @param face the copper layer that faces up
     * @param turned how the blank was turned over after the side before; {@link Turn#NO} on the first
     */
    public record Side(Face face, Turn turned) {}

    private final double widthMm;
    private final double heightMm;
    private final List<Side> sides;
    private final List<PlaneMap> blankFromDesign = new ArrayList<>();
    private final List<PlaneMap> designFromBlank = new ArrayList<>();

    /**
     * Places the design.
     *
     * @param widthMm the blank along X, mm
     * @param heightMm the blank along Y, mm
     * @param placedXMm X of the design's zero from the blank's lower-left corner, seen from the design's top, mm
     * @param placedYMm Y of the same, mm
     * @param rotatedDeg 0, 90, 180 or 270, counter-clockwise about the design's zero
     * @param sides in the order they are milled
     * @throws IllegalArgumentException where the angle is none of the four, or the faces contradict the turns
     */
    public Placement(
            double widthMm, double heightMm, double placedXMm, double placedYMm, int rotatedDeg, List<Side> sides) {
        this(widthMm, heightMm, placedXMm, placedYMm, rotatedDeg, sides, PlaneMap.IDENTITY);
    }

    private Placement(
            double widthMm,
            double heightMm,
            double placedXMm,
            double placedYMm,
            int rotatedDeg,
            List<Side> sides,
            PlaneMap moved) {
        if (Math.floorMod(rotatedDeg, 90) != 0) {
            throw new IllegalArgumentException(
                    "the design can be rotated by 0, 90, 180 or 270 degrees, not by " + rotatedDeg);
        }
        this.widthMm = widthMm;
        this.heightMm = heightMm;
        this.sides = List.copyOf(sides);
        PlaneMap map = PlaneMap.quarterTurns(rotatedDeg / 90).then(PlaneMap.shift(placedXMm, placedYMm));
        Face up = null;
        for (Side side : sides) {
            boolean turned = side.turned() != Turn.NO;
            if (up == null && turned) {
                throw new IllegalArgumentException("the first side cannot have been turned over");
            }
            if (up != null && side.face() != (turned ? up.other() : up)) {
                throw new IllegalArgumentException("the face that faces up contradicts the turns: "
                        + (turned ? "the blank was turned over, so " : "the blank was not turned over, so ")
                        + (turned ? up.other() : up) + " faces up");
            }
            if (up == null && side.face() == Face.BOTTOM) {
                map = map.then(PlaneMap.mirrorX(widthMm));
            }
            map = map.then(up == null ? moved : turnOf(side.turned()));
            up = side.face();
            blankFromDesign.add(map);
            designFromBlank.add(map.inverse());
        }
    }

    /**
     * The placement that a job states; without design files the design's zero lies on the blank's corner.
     *
     * @throws IllegalArgumentException where the faces contradict the turns (the bench refuses such a job before)
     */
    public static Placement of(Job job) {
        List<Side> sides = new ArrayList<>();
        for (foilproof.bench.Side side : job.sides()) {
            sides.add(new Side(side.face(), side.turned()));
        }
        DesignFiles design = job.design();
        return new Placement(
                job.blank().widthMm(),
                job.blank().heightMm(),
                design == null ? 0 : design.placedAtMm().xMm(),
                design == null ? 0 : design.placedAtMm().yMm(),
                design == null ? 0 : design.rotatedDeg(),
                sides,
                moved(job.whatIf().moved()));
    }

    private static PlaneMap moved(JobMove m) {
        return m.none()
                ? PlaneMap.IDENTITY
                : PlaneMap.shift(-m.aboutXMm(), -m.aboutYMm())
                        .then(PlaneMap.turnDeg(StrictMath.toDegrees(m.turnRad())))
                        .then(PlaneMap.shift(m.aboutXMm() + m.xMm(), m.aboutYMm() + m.yMm()));
    }

    private PlaneMap turnOf(Turn turning) {
        return switch (turning) {
            case NO -> PlaneMap.IDENTITY;
            case ABOUT_X -> PlaneMap.mirrorY(heightMm);
            case ABOUT_Y -> PlaneMap.mirrorX(widthMm);
        };
    }

    /** Width of the blank along X, mm. */
    public double widthMm() {
        return widthMm;
    }

    /** Height of the blank along Y, mm. */
    public double heightMm() {
        return heightMm;
    }

    /** The sides in the order they are milled. */
    public List<Side> sides() {
        return sides;
    }

    /** From design coordinates to the blank as it lies on side {@code side} (0-based). */
    public PlaneMap blankFromDesign(int side) {
        return blankFromDesign.get(side);
    }

    /** From the blank as it lies on side {@code side} (0-based) to design coordinates. */
    public PlaneMap designFromBlank(int side) {
        return designFromBlank.get(side);
    }

    /** From the blank as it lies on side {@code from} to the blank as it lies on side {@code to}, 0-based. */
    public PlaneMap blankFromBlank(int to, int from) {
        return designFromBlank(from).then(blankFromDesign(to));
    }
}

package foilproof.bench;

import java.util.List;
import java.util.OptionalDouble;
import java.util.OptionalInt;

/**
 * One cutter as it sits in the collet.
 *
 * @param name the person's name for it, unique in the job
 * @param number the T word, unique in the job, empty where none
 * @param shape shape of its end
 * @param diameterMm cutting diameter, mm; for a V-shaped bit its largest diameter (the shank), infinite where the
 *     shank is not known
 * @param includedAngleRad full angle between the flanks of a V-shaped bit or of a drill's point, rad; 0 for the others
 * @param tipWidthMm width of the flat at the tip of a V-shaped bit, mm, empty where the tip is round or unknown
 * @param tipRadiusMm radius of the round tip of a V-shaped bit, mm, empty where the tip is flat or unknown
 * @param shankMm shank diameter, mm, empty where not known
 * @param flutes number of flutes, empty where not known
 * @param fluteLengthMm length of the cutting edges, mm, empty where not known
 * @param stickOutMm from the tip to the collet, mm, empty where not known
 * @param runoutMm total indicator reading, mm: the cut is that much wider; 0 (listed as assumed) where not stated
 * @param centreCutting whether it may plunge straight down
 * @param lengthMm the H length, mm, empty where not stated
 * @param duty what it may be used for
 */
public record Tool(
        String name,
        OptionalInt number,
        ToolShape shape,
        double diameterMm,
        double includedAngleRad,
        OptionalDouble tipWidthMm,
        OptionalDouble tipRadiusMm,
        OptionalDouble shankMm,
        OptionalInt flutes,
        OptionalDouble fluteLengthMm,
        OptionalDouble stickOutMm,
        double runoutMm,
        boolean centreCutting,
        OptionalDouble lengthMm,
        Duty duty) {

    /** A flat end mill with nothing else known; for tests and stand-ins. */
    public static Tool flat(String name, int number, double diameterMm, Duty duty) {
        return plain(name, number, ToolShape.FLAT, diameterMm, 0, OptionalDouble.empty(), duty);
    }

    /** A ball end mill with nothing else known; for tests and stand-ins. */
    public static Tool ball(String name, int number, double diameterMm, Duty duty) {
        return plain(name, number, ToolShape.BALL, diameterMm, 0, OptionalDouble.empty(), duty);
    }

    /** A drill with nothing else known; for tests and stand-ins. */
    public static Tool drill(String name, int number, double diameterMm, double pointAngleRad) {
        return plain(name, number, ToolShape.DRILL, diameterMm, pointAngleRad, OptionalDouble.empty(), Duty.ANY);
    }

    /** A V-shaped engraving bit with a flat tip on a 3.175 mm shank; for tests and stand-ins. */
    public static Tool vFlatTip(String name, int number, double includedAngleRad, double tipWidthMm, Duty duty) {
        return plain(name, number, ToolShape.V, 3.175, includedAngleRad, OptionalDouble.of(tipWidthMm), duty);
    }

    /** A V-shaped engraving bit with a round tip on a 3.175 mm shank; for tests and stand-ins. */
    public static Tool vRoundTip(String name, int number, double includedAngleRad, double tipRadiusMm, Duty duty) {
        return plain(name, number, ToolShape.V, 3.175, includedAngleRad, OptionalDouble.empty(), duty)
                .withTipRadius(tipRadiusMm);
    }

    private static Tool plain(
            String name,
            int number,
            ToolShape shape,
            double diameterMm,
            double angleRad,
            OptionalDouble tipWidthMm,
            Duty duty) {
        return new Tool(
                name,
                OptionalInt.of(number),
                shape,
                diameterMm,
                angleRad,
                tipWidthMm,
                OptionalDouble.empty(),
                shape == ToolShape.V ? OptionalDouble.of(diameterMm) : OptionalDouble.empty(),
                OptionalInt.empty(),
                OptionalDouble.empty(),
                OptionalDouble.empty(),
                0,
                true,
                OptionalDouble.empty(),
                duty);
    }

    /** Whether this is a V-shaped bit of which neither tip width nor tip radius is known. */
    public boolean tipUnknown() {
        return shape == ToolShape.V && tipWidthMm.isEmpty() && tipRadiusMm.isEmpty();
    }

    /** The same bit with a flat tip of this width, mm. */
    public Tool withTipWidth(double widthMm) {
        return withTip(OptionalDouble.of(widthMm), OptionalDouble.empty());
    }

    /** The same bit with a round tip of this radius, mm. */
    public Tool withTipRadius(double radiusMm) {
        return withTip(OptionalDouble.empty(), OptionalDouble.of(radiusMm));
    }

    /** The same bit with another included angle, rad. */
    public Tool withIncludedAngle(double angleRad) {
        return new Tool(
                name,
                number,
                shape,
                diameterMm,
                angleRad,
                tipWidthMm,
                tipRadiusMm,
                shankMm,
                flutes,
                fluteLengthMm,
                stickOutMm,
                runoutMm,
                centreCutting,
                lengthMm,
                duty);
    }

    /** The same cutter running out by this, mm. */
    public Tool withRunout(double newRunoutMm) {
        return new Tool(
                name,
                number,
                shape,
                diameterMm,
                includedAngleRad,
                tipWidthMm,
                tipRadiusMm,
                shankMm,
                flutes,
                fluteLengthMm,
                stickOutMm,
                newRunoutMm,
                centreCutting,
                lengthMm,
                duty);
    }

    private Tool withTip(OptionalDouble widthMm, OptionalDouble radiusMm) {
        return new Tool(
                name,
                number,
                shape,
                diameterMm,
                includedAngleRad,
                widthMm,
                radiusMm,
                shankMm,
                flutes,
                fluteLengthMm,
                stickOutMm,
                runoutMm,
                centreCutting,
                lengthMm,
                duty);
    }

    /**
     * The readings to run: this cutter alone where its tip is known; else the flat tip and the round tip that the
     * limits {@code unknown_tip_width} and {@code unknown_tip_radius} give, in this order.
     */
    public List<Tool> readings(Limits limits) {
        if (!tipUnknown()) {
            return List.of(this);
        }
        return List.of(
                withTipWidth(limits.value(LimitKey.UNKNOWN_TIP_WIDTH)),
                withTipRadius(limits.value(LimitKey.UNKNOWN_TIP_RADIUS)));
    }

    /** Half the included angle, rad. */
    public double halfAngleRad() {
        return includedAngleRad / 2;
    }

    /** Radius of the shape at the very tip, mm: half the tip width, the whole radius of a flat end mill, else 0. */
    public double tipFlatRadiusMm() {
        return radiusAtHeightMm(0);
    }

    /**
     * Radius of the cutter, without runout, at a height above its lowest point.
     *
     * <p>Flat: D/2. Ball: sqrt(2 R h - h2) up to R. Drill: h tan(angle / 2) up to D/2. V with a flat tip of width t:
     * t/2 + h tan(angle / 2). V with a round tip of radius r, b half the angle: sqrt(2 r h - h2) up to the tangent
     * height r (1 - sin b), above it r cos b + (h - r (1 - sin b)) tan b. V-shaped bits end at the shank.
     *
     * @param heightMm above the lowest point, mm; below 0 the radius is 0
     * @return mm
     * @throws IllegalStateException where the tip is unknown: take one of {@link #readings}
     */
    public double radiusAtHeightMm(double heightMm) {
        if (heightMm < 0) {
            return 0;
        }
        double bodyMm = diameterMm / 2;
        return switch (shape) {
            case FLAT -> bodyMm;
            case BALL -> heightMm >= bodyMm ? bodyMm : StrictMath.sqrt(heightMm * (2 * bodyMm - heightMm));
            case DRILL -> Math.min(bodyMm, heightMm * StrictMath.tan(halfAngleRad()));
            case V -> Math.min(bodyMm, vRadiusMm(heightMm));
        };
    }

    private double vRadiusMm(double heightMm) {
        double tan = StrictMath.tan(halfAngleRad());
        if (tipWidthMm.isPresent()) {
            return tipWidthMm.getAsDouble() / 2 + heightMm * tan;
        }
        if (tipRadiusMm.isEmpty()) {
            throw new IllegalStateException("the tip of " + name + " is unknown");
        }
        double rMm = tipRadiusMm.getAsDouble();
        double tangentMm = rMm * (1 - StrictMath.sin(halfAngleRad()));
        if (heightMm <= tangentMm) {
            return StrictMath.sqrt(heightMm * (2 * rMm - heightMm));
        }
        return rMm * StrictMath.cos(halfAngleRad()) + (heightMm - tangentMm) * tan;
    }

    /** Radius that is really cut at a height above the lowest point, mm: half the runout wider. */
    public double cutRadiusAtHeightMm(double heightMm) {
        return heightMm < 0 ? 0 : radiusAtHeightMm(heightMm) + runoutMm / 2;
    }

    /** Height of the point of a drill, mm: (D/2) / tan(angle / 2); 0 for the other shapes. */
    public double pointLengthMm() {
        return shape == ToolShape.DRILL ? diameterMm / 2 / StrictMath.tan(halfAngleRad()) : 0;
    }
}

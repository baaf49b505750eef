package foilproof.electrical;

import foilproof.bench.Face;
import foilproof.design.Bounds;
import foilproof.design.CopperProbe;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * What a net's copper on one face carries, as milled.
 *
 * @param net its name
 * @param face the copper layer
 * @param narrowest the narrowest section between its places
 * @param narrowestXMm where, in the frame of the copper that was asked, mm
 * @param narrowestYMm where
 * @param neck the narrowest section at least 1 mm long, which is what heats up; null where no way is that long
 * @param neckXMm where; that of the narrowest where there is no neck
 * @param neckYMm where
 * @param widthPlusMinusMm how far the widths may be off, mm
 * @param squares the largest resistance between two of its places, in squares, at the foil's bottom
 * @param from one of these two places
 * @param to the other
 * @param foilMm thickness of the foil, mm
 * @param sections its stretches by width, narrowest first: the neck, then wider ones; empty where no way is 1 mm long
 */
public record NetFigures(
        String net,
        Face face,
        TraceSection narrowest,
        double narrowestXMm,
        double narrowestYMm,
        @Nullable TraceSection neck,
        double neckXMm,
        double neckYMm,
        double widthPlusMinusMm,
        SheetResistance.Squares squares,
        NetPlace from,
        NetPlace to,
        double foilMm,
        List<Section> sections) {
    /** Copies the list. */
    public NetFigures {
        sections = List.copyOf(sections);
    }

    /**
     * A stretch of at least 1 mm of one width.
     *
     * @param section its cross-section
     * @param xMm where, in the frame of the copper that was asked, mm
     * @param yMm where
     */
    public record Section(TraceSection section, double xMm, double yMm) {
        /** Rise of temperature under a current, K: a rule of thumb. */
        public double riseK(double currentA) {
            return TemperatureRise.riseK(TemperatureRise.EXTERNAL, currentA, section.areaMm2());
        }

        /** The same in foil of another thickness, K. */
        public double riseKInFoil(double currentA, double otherFoilMm) {
            return TemperatureRise.riseK(
                    TemperatureRise.EXTERNAL,
                    currentA,
                    new TraceSection(section.topMm(), section.bottomMm(), otherFoilMm).areaMm2());
        }
    }

    /**
     * Works them out.
     *
     * @param net name of the net
     * @param places its places on this face, in the frame of the copper; those that one piece joins
     * @param bottom the net's copper at the foil's bottom: this piece only, mm
     * @param top its copper at the foil's top, or null where not known: sections are then taken as rectangles
     * @param box the box round the piece
     * @param copperMm2 area of the piece, mm2
     * @param foilMm thickness of the foil, mm
     * @param cellMm cell wished for, mm; a tenth of the usual trace does
     * @return null where fewer than two places are joined
     */
    public static @Nullable NetFigures of(
            String net,
            List<NetPlace> places,
            CopperProbe bottom,
            @Nullable CopperProbe top,
            Bounds box,
            double copperMm2,
            double foilMm,
            double cellMm) {
        if (places.size() < 2) {
            return null;
        }
        List<SheetResistance.Contact> contacts = new ArrayList<>();
        for (NetPlace place : places) {
            contacts.add(contact(place));
        }
        NetSections.Result widths = NetSections.narrowest(bottom, box, copperMm2, contacts, cellMm);
        SheetResistance.Largest largest = SheetResistance.largest(bottom, box, copperMm2, contacts, cellMm);
        if (widths == null || largest == null) {
            return null;
        }
        NetSections.Narrow narrow = widths.narrowest();
        NetSections.Narrow neck = widths.neck();
        return new NetFigures(
                net,
                places.get(0).face(),
                section(narrow, top, foilMm, cellMm),
                narrow.xMm(),
                narrow.yMm(),
                neck == null ? null : section(neck, top, foilMm, cellMm),
                neck == null ? narrow.xMm() : neck.xMm(),
                neck == null ? narrow.yMm() : neck.yMm(),
                narrow.plusMinusMm(),
                largest.value(),
                places.get(largest.from()),
                places.get(largest.to()),
                foilMm,
                widths.sections().stream()
                        .map(n -> new Section(section(n, top, foilMm, cellMm), n.xMm(), n.yMm()))
                        .toList());
    }

    private static TraceSection section(
            NetSections.Narrow at, @Nullable CopperProbe top, double foilMm, double cellMm) {
        double above = top == null ? at.widthMm() : NetSections.shortestChordMm(top, at.xMm(), at.yMm(), cellMm / 2);
        return new TraceSection(Math.min(above, at.widthMm()), at.widthMm(), foilMm);
    }

    /** A soldered pad is at one potential all over: an ellipse in its box. */
    static SheetResistance.Contact contact(NetPlace place) {
        double rx = Math.max(0.1, place.widthMm() / 2);
        double ry = Math.max(0.1, place.heightMm() / 2);
        return (x, y) -> {
            double u = (x - place.xMm()) / rx;
            double v = (y - place.yMm()) / ry;
            return u * u + v * v <= 1;
        };
    }

    /** Largest resistance between two places, ohm; the copper's own tolerance (about 15 %) comes on top. */
    public double ohm(double temperatureC) {
        return squares.ohm(CopperMetal.sheetOhm(foilMm, temperatureC));
    }

    /** Voltage lost over that resistance, V. */
    public double dropV(double currentA, double temperatureC) {
        return Math.abs(currentA) * ohm(temperatureC);
    }

    /** Rise of temperature of the neck (of the narrowest section where no neck is long enough), K: a rule of thumb. */
    public double riseK(double currentA) {
        TraceSection section = neck == null ? narrowest : neck;
        return TemperatureRise.riseK(TemperatureRise.EXTERNAL, currentA, section.areaMm2());
    }

    /** The same in a foil of another thickness: what changes where the foil is not the one that was stated. */
    public double riseKInFoil(double currentA, double otherFoilMm) {
        TraceSection section = neck == null ? narrowest : neck;
        return TemperatureRise.riseK(
                TemperatureRise.EXTERNAL,
                currentA,
                new TraceSection(section.topMm(), section.bottomMm(), otherFoilMm).areaMm2());
    }
}

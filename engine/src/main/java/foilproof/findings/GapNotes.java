package foilproof.findings;

import foilproof.bench.LimitKey;
import foilproof.bench.Net;
import foilproof.copper.NarrowGap;
import foilproof.copper.StripFinder;
import java.util.List;
import java.util.function.BiFunction;

/**
 * Notes on gaps that no cutter can mend: dust and damp beside nets of high impedance (E12a), and solder floods where
 * nobody says which nets will be flooded (J9a; those that are, are judged with the nets).
 */
final class GapNotes implements Check {
    @Override
    public List<String> kinds() {
        return List.of(Kinds.LEAKAGE, Kinds.FLOOD_GAP);
    }

    @Override
    public List<String> needsRows() {
        return List.of("E12a", "J9a");
    }

    @Override
    public void examine(Examination x, FindingCollector out) {
        if (x.design().verdict() == null) {
            return;
        }
        x.job().nets().stream().filter(Net::highImpedance).forEach(net -> leakage(x, net, out));
        if (x.job().nets().stream().noneMatch(Net::flooded)) {
            floods(x, out);
        }
    }

    /** Which gaps of a side are meant. */
    private interface Beside {
        boolean test(int side, NarrowGap gap);
    }

    /** Adds one note on the narrowest of the gaps below a limit, where there are any. */
    private static void note(
            Examination x,
            String kind,
            double least,
            Beside beside,
            BiFunction<Integer, NarrowGap, String> says,
            String doThis,
            FindingCollector out) {
        int count = 0;
        NarrowGap worst = null;
        int side = 0;
        for (CopperFacts copper : x.copper()) {
            if (copper.windows().isEmpty()) {
                continue;
            }
            for (NarrowGap gap : StripFinder.gaps(copper.map(), least)) {
                if (gap.bottomMm() < least - 1e-6 && beside.test(copper.side(), gap)) {
                    count++;
                    if (worst == null || gap.bottomMm() < worst.bottomMm() - 1e-9) {
                        worst = gap;
                        side = copper.side();
                    }
                }
            }
        }
        if (worst != null) {
            out.add(Finding.of(kind, Severity.NOTE, Certainty.RULE_OF_THUMB)
                    .side(side)
                    .at(worst.xMm(), worst.yMm())
                    .atLeast(Measured.mm("gap", worst.bottomMm(), worst.errorMm()), least)
                    .says(says.apply(count, worst))
                    .doThis(doThis)
                    .build());
        }
    }

    private static void leakage(Examination x, Net net, FindingCollector out) {
        double least = x.limit(LimitKey.DUST_GAP);
        note(
                x,
                Kinds.LEAKAGE,
                least,
                (side, gap) -> x.design().carries(net.name(), side, gap.pieceA())
                        || x.design().carries(net.name(), side, gap.pieceB()),
                (count, worst) -> "Net " + net.name() + " is of high impedance, and " + count
                        + (count == 1 ? " gap beside it is" : " gaps beside it are") + " narrower than "
                        + Words.plainMm(least) + "; the narrowest has " + Words.mm(worst.bottomMm())
                        + " at the foil bottom. Dust packed into it, flux and damp leak.",
                "Brush, rinse and bake the board, then coat it.",
                out);
    }

    /** One note for the whole job: gaps between nets that a flood of solder would jump. */
    private static void floods(Examination x, FindingCollector out) {
        double least = x.limit(LimitKey.FLOODED_GAP);
        note(
                x,
                Kinds.FLOOD_GAP,
                least,
                (side, gap) ->
                        x.design().carriesNet(side, gap.pieceA()) && x.design().carriesNet(side, gap.pieceB()),
                (count, worst) -> (count == 1 ? "One gap between two nets is" : count + " gaps between nets are")
                        + " narrower than " + Words.plainMm(least) + ", the narrowest " + Words.mm(worst.bottomMm())
                        + ". Without solder mask a flood of solder jumps them; no net is said to be flooded.",
                "Keep solder floods off these gaps; say flooded = true of the nets that will be flooded.",
                out);
    }
}

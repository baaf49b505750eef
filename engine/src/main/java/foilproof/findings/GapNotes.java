package foilproof.findings;

import foilproof.bench.LimitKey;
import foilproof.bench.Net;
import foilproof.copper.NarrowGap;
import foilproof.copper.StripFinder;
import java.util.List;

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
        leakage(x, out);
        if (x.job().nets().stream().noneMatch(Net::flooded)) {
            floods(x, out);
        }
    }

    private static void leakage(Examination x, FindingCollector out) {
        double least = x.limit(LimitKey.LEAKAGE_GAP);
        for (Net net : x.job().nets()) {
            if (!net.highImpedance()) {
                continue;
            }
            int count = 0;
            NarrowGap worst = null;
            int side = 0;
            for (CopperFacts copper : x.copper()) {
                for (NarrowGap gap : StripFinder.gaps(copper.map(), least)) {
                    boolean beside = x.design().carries(net.name(), copper.side(), gap.pieceA())
                            || x.design().carries(net.name(), copper.side(), gap.pieceB());
                    if (beside && gap.bottomMm() < least - 1e-6) {
                        count++;
                        if (worst == null || gap.bottomMm() < worst.bottomMm() - 1e-9) {
                            worst = gap;
                            side = copper.side();
                        }
                    }
                }
            }
            if (worst != null) {
                out.add(Finding.of(Kinds.LEAKAGE, Severity.NOTE, Certainty.RULE_OF_THUMB)
                        .side(side)
                        .at(worst.xMm(), worst.yMm())
                        .atLeast(Measured.mm("gap", worst.bottomMm(), worst.errorMm()), least)
                        .says("Net " + net.name() + " is of high impedance, and " + count
                                + (count == 1 ? " gap beside it is" : " gaps beside it are") + " narrower than "
                                + Words.plainMm(least) + "; the narrowest has " + Words.mm(worst.bottomMm())
                                + " at the foil bottom. Dust packed into it, flux and damp leak.")
                        .doThis("Brush, rinse and bake the board, then coat it.")
                        .build());
            }
        }
    }

    /** One note for the whole job: gaps between nets that a flood of solder would jump. */
    private static void floods(Examination x, FindingCollector out) {
        double least = x.limit(LimitKey.FLOODED_GAP);
        int count = 0;
        NarrowGap worst = null;
        int side = 0;
        for (CopperFacts copper : x.copper()) {
            for (NarrowGap gap :
                    copper.windows().isEmpty() ? List.<NarrowGap>of() : StripFinder.gaps(copper.map(), least)) {
                if (gap.bottomMm() < least - 1e-6
                        && x.design().carriesNet(copper.side(), gap.pieceA())
                        && x.design().carriesNet(copper.side(), gap.pieceB())) {
                    count++;
                    if (worst == null || gap.bottomMm() < worst.bottomMm() - 1e-9) {
                        worst = gap;
                        side = copper.side();
                    }
                }
            }
        }
        if (worst != null) {
            out.add(Finding.of(Kinds.FLOOD_GAP, Severity.NOTE, Certainty.RULE_OF_THUMB)
                    .side(side)
                    .at(worst.xMm(), worst.yMm())
                    .atLeast(Measured.mm("gap", worst.bottomMm(), worst.errorMm()), least)
                    .says((count == 1 ? "One gap between two nets is" : count + " gaps between nets are")
                            + " narrower than " + Words.plainMm(least) + ", the narrowest " + Words.mm(worst.bottomMm())
                            + ". Without solder mask a flood of solder jumps them; no net is said to be flooded.")
                    .doThis("Keep solder floods off these gaps; say flooded = true of the nets that will be flooded.")
                    .build());
        }
    }
}

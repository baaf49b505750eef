package foilproof.findings;

import foilproof.bench.LimitKey;
import foilproof.bench.Net;
import foilproof.bench.Substrate;
import foilproof.copper.NarrowGap;
import foilproof.copper.StripFinder;
import foilproof.electrical.IntendedNets;
import foilproof.electrical.NetFigures;
import foilproof.electrical.Solder;
import foilproof.electrical.Spacing;
import foilproof.electrical.TemperatureRise;
import foilproof.electrical.TraceSection;
import java.util.ArrayList;
import java.util.List;

/**
 * Current (J5, J6), voltage (J7) and mains (L6). Temperature rise by the IPC-2221 chart formula on the as-milled
 * trapezium; spacing by IPC-2221A table 6-1, column B2 (both secondary transcriptions: check the current edition).
 */
final class NetsElectrical implements Check {
    private static final double WIDEST_GAP_MM = 3;

    @Override
    public List<String> kinds() {
        return List.of(Kinds.HOT_TRACE, Kinds.NARROW_NET, Kinds.SPACING, Kinds.NARROW_GAP);
    }

    @Override
    public List<String> needsRows() {
        return List.of("J5", "J6", "J7", "J9a", "J11", "L6");
    }

    @Override
    public void examine(Examination x, FindingCollector out) {
        boolean currents = false;
        for (Net net : x.job().nets()) {
            currents |= net.currentA().isPresent();
            mains(x, net, out);
            NetCopper copper = x.netCopper(net.name());
            if (copper == null) {
                if (x.design().verdict() != null) {
                    out.notChecked(
                            "current and resistance of net " + net.name(),
                            "its places are not joined by copper," + " or no design file names it");
                } else {
                    out.notChecked("current and voltage of net " + net.name(), "no netlist or layer image is given");
                }
                continue;
            }
            current(x, net, copper, out);
        }
        unknownNames(x, out);
        floods(x, out);
        spacing(x, out);
        if (x.design().verdict() != null) {
            out.notChecked(
                    "high-frequency behaviour, inductive loops and ground return",
                    "they are outside what is simulated");
        }
        if (x.design().verdict() != null && !currents) {
            out.add(Finding.of(Kinds.HOT_TRACE, Severity.NOTE, Certainty.GEOMETRY)
                    .says("No net has a stated current: heating and voltage drop were not judged (currents unknown).")
                    .doThis("Give [[net]] name and current for the nets that carry more than a few hundred mA.")
                    .build());
        }
    }

    private static void mains(Examination x, Net net, FindingCollector out) {
        if (net.voltageV().isPresent() && Math.abs(net.voltageV().getAsDouble()) > x.limit(LimitKey.MAINS_DC)) {
            out.add(Finding.of(Kinds.SPACING, Severity.FIX, Certainty.GEOMETRY)
                    .atMost(
                            Measured.exact(
                                    "voltage of " + net.name(), net.voltageV().getAsDouble(), "V"),
                            x.limit(LimitKey.MAINS_DC))
                    .says("Net " + net.name() + " is stated at "
                            + Words.number(net.voltageV().getAsDouble(), 0)
                            + " V. A milled board without solder mask is not certified for dangerous voltages, and this"
                            + " dry run refuses to judge it.")
                    .doThis("Do not build this on a milled blank; follow your local codes and licensed practice.")
                    .build());
        }
    }

    private static void current(Examination x, Net net, NetCopper copper, FindingCollector out) {
        if (net.currentA().isEmpty()) {
            return;
        }
        double amps = net.currentA().getAsDouble();
        NetFigures f = copper.figures();
        double rise = f.riseK(amps);
        if (rise > x.limit(LimitKey.RISE_WATCH)) {
            out.add(hot(x, net, copper, amps));
        }
        dissipation(x, net, copper, amps, out);
        if (net.voltageV().isPresent() && net.voltageV().getAsDouble() != 0) {
            double drop = f.dropV(amps, NetCopper.AMBIENT_C);
            double share = drop / Math.abs(net.voltageV().getAsDouble());
            if (share > x.limit(LimitKey.DROP_SHARE)) {
                out.add(Finding.of(Kinds.NARROW_NET, Severity.WATCH, Certainty.GEOMETRY)
                        .side(copper.side())
                        .at(f.narrowestXMm(), f.narrowestYMm())
                        .atMost(
                                new Measured("voltage drop", drop, "V", 0.15 * drop),
                                x.limit(LimitKey.DROP_SHARE)
                                        * Math.abs(net.voltageV().getAsDouble()))
                        .says("Net " + net.name() + " loses " + Words.number(drop, 3) + " V of "
                                + Words.number(net.voltageV().getAsDouble(), 1) + " V at "
                                + Words.number(amps, 2) + " A over " + Words.number(copper.resistanceMohm(), 1)
                                + " mOhm (copper's tolerance +/- 15 %).")
                        .doThis("Widen the trace, shorten it, or flood it with solder.")
                        .build());
            }
        }
    }

    /** The narrowest stretch leads; wider ones of the same net are told with their own numbers. */
    private static Finding hot(Examination x, Net net, NetCopper copper, double amps) {
        NetFigures f = copper.figures();
        TraceSection section = f.neck() == null ? f.narrowest() : f.neck();
        boolean several = f.sections().size() > 1;
        double flooded =
                TemperatureRise.riseK(TemperatureRise.EXTERNAL, amps, section.floodedAreaMm2(Solder.SN63PB37, 0.3));
        StringBuilder wider = new StringBuilder();
        List<Finding> others = new ArrayList<>();
        for (int k = 1; k < f.sections().size(); k++) {
            NetFigures.Section next = f.sections().get(k);
            wider.append(k == 1 && f.sections().size() == 2 ? " Its body, " : " Its next stretch, ")
                    .append(Words.mm(next.section().bottomMm()))
                    .append(" wide, ")
                    .append(foils(x, next.riseK(amps), next.riseKInFoil(amps, otherFoilMm(x))))
                    .append('.');
            if (next.riseK(amps) > x.limit(LimitKey.RISE_WATCH)) {
                others.add(warm(x, copper, next.riseK(amps), next.xMm(), next.yMm())
                        .says("A wider stretch of net " + net.name() + ", "
                                + Words.mm(next.section().bottomMm()) + ", still rises "
                                + foils(x, next.riseK(amps), next.riseKInFoil(amps, otherFoilMm(x))) + ".")
                        .doThis("After the neck: widen it, or flood it with solder too.")
                        .build());
            }
        }
        return warm(x, copper, f.riseK(amps), f.neckXMm(), f.neckYMm())
                .says("Net " + net.name() + " carries " + Words.number(amps, 2) + " A through a "
                        + (several ? "neck" : "stretch") + " of " + Words.mm(section.bottomMm()) + ": it rises "
                        + foils(x, f.riseK(amps), f.riseKInFoil(amps, otherFoilMm(x))) + "." + wider
                        + " All rises +/- 30 %. The chart formula is for FR-4 boards"
                        + (x.job().blank().substrate() == Substrate.FR_1 ? "; on FR-1 expect worse." : "."))
                .doThis((several ? "The neck first: widen it" : "Widen it")
                        + ", or flood it with 0.3 mm of solder (then about " + Words.number(flooded, 0)
                        + " K; " + Words.number(section.floodedAreaMm2(Solder.SN63PB37, 0.3) / section.areaMm2(), 1)
                        + " x the copper section). Check the current edition of the standard.")
                .folding(others)
                .build();
    }

    private static double otherFoilMm(Examination x) {
        return Math.abs(x.foilMm() - 0.0348) < 0.005 ? 0.0174 : 0.0348;
    }

    private static String foils(Examination x, double rise, double inOther) {
        return "about " + kelvin(rise) + " in this foil of " + Words.um(x.foilMm()) + " (would be " + kelvin(inOther)
                + " in " + Words.um(otherFoilMm(x)) + ")";
    }

    /** A rise with as many digits as its error of three tenths bears. */
    private static String kelvin(double rise) {
        return Words.number(rise, rise < 10 ? 1 : 0) + " K";
    }

    private static Finding.Builder warm(Examination x, NetCopper copper, double rise, double px, double py) {
        boolean fix = rise > x.limit(LimitKey.RISE_FIX);
        Finding.Builder b = Finding.of(Kinds.HOT_TRACE, fix ? Severity.FIX : Severity.WATCH, Certainty.RULE_OF_THUMB)
                .side(copper.side())
                .at(px, py)
                .atMost(
                        new Measured("temperature rise", rise, "K", 0.3 * rise),
                        x.limit(fix ? LimitKey.RISE_FIX : LimitKey.RISE_WATCH));
        x.copper(copper.side()).nearestLine(x, b, px, py);
        return b;
    }

    /** Heat made in a net's copper over its area (J11): paper phenolic chars where parts stay above 105 C. */
    private static void dissipation(Examination x, Net net, NetCopper copper, double amps, FindingCollector out) {
        if (x.job().blank().substrate() != Substrate.FR_1) {
            return;
        }
        double watts = amps * amps * copper.resistanceMohm() / 1000;
        double perCm2 = watts / (copper.areaMm2() / 100);
        double most = 100 * x.limit(LimitKey.DISSIPATION);
        if (perCm2 > most) {
            out.add(Finding.of(Kinds.HOT_TRACE, Severity.WATCH, Certainty.RULE_OF_THUMB)
                    .side(copper.side())
                    .at(copper.figures().neckXMm(), copper.figures().neckYMm())
                    .atMost(new Measured("heat by area", perCm2, "W/cm2", 0.2 * perCm2), most)
                    .says("Net " + net.name() + " turns " + Words.number(watts, 2) + " W into heat in "
                            + Words.number(copper.areaMm2() / 100, 2) + " cm2 of copper on FR-1: "
                            + Words.number(perCm2, 2) + " W a cm2. FR-1 chars where it stays above about 105 C.")
                    .doThis("Give the net more copper, flood it with solder, or build on FR-4.")
                    .build());
        }
    }

    /** Gaps that a solder flood may jump (J9a), the narrowest beside each net that will be flooded. */
    private static void floods(Examination x, FindingCollector out) {
        double least = x.limit(LimitKey.FLOODED_GAP);
        for (Net net : x.job().nets()) {
            if (!net.flooded()) {
                continue;
            }
            for (CopperFacts copper : x.copper()) {
                for (NarrowGap gap : StripFinder.gaps(copper.map(), least)) {
                    boolean beside = x.design().carries(net.name(), copper.side(), gap.pieceA())
                            || x.design().carries(net.name(), copper.side(), gap.pieceB());
                    if (beside && gap.bottomMm() < least - 1e-6) {
                        Finding.Builder b = Finding.of(Kinds.NARROW_GAP, Severity.WATCH, Certainty.RULE_OF_THUMB)
                                .side(copper.side())
                                .at(gap.xMm(), gap.yMm())
                                .atLeast(Measured.mm("gap", gap.bottomMm(), gap.errorMm()), least)
                                .says("Net " + net.name() + " will be flooded with solder, but other copper is only "
                                        + Words.mm(gap.bottomMm()) + " away: without a mask solder jumps it.")
                                .doThis("Widen the groove beside what is flooded to " + Words.plainMm(least)
                                        + " or more.");
                        copper.nearestLine(x, b, gap.xMm(), gap.yMm());
                        out.add(b.build());
                        break;
                    }
                }
            }
        }
    }

    /** Nets that the job names and no design file has. */
    private static void unknownNames(Examination x, FindingCollector out) {
        if (x.design().verdict() == null || x.design().nets().source() == IntendedNets.Source.CONNECTIVITY) {
            return;
        }
        for (Net net : x.job().nets()) {
            if (!x.design().has(net.name())) {
                out.add(Finding.of(Kinds.NARROW_NET, Severity.NOTE, Certainty.GEOMETRY)
                        .says("The job names net " + net.name() + ", but no design file has a net of that name: its"
                                + " current and voltage were not judged.")
                        .doThis("Check the spelling; the design has "
                                + x.design().someNames() + ".")
                        .build());
            }
        }
    }

    private static void spacing(Examination x, FindingCollector out) {
        double highest = 0;
        for (Net net : x.job().nets()) {
            highest = Math.max(highest, Math.abs(net.voltageV().orElse(0)));
        }
        if (highest == 0 || x.design().verdict() == null) {
            return;
        }
        double needed = Math.min(WIDEST_GAP_MM, Spacing.B2.leastMm(highest));
        for (CopperFacts copper : x.copper()) {
            Finding worst = null;
            for (NarrowGap gap : StripFinder.gaps(copper.map(), needed)) {
                double volts = Math.abs(x.design().volts(copper.side(), gap.pieceA())
                        - x.design().volts(copper.side(), gap.pieceB()));
                double least = Spacing.B2.leastMm(volts);
                if (volts > 0 && gap.bottomMm() < least - 1e-6 && worst == null) {
                    Finding.Builder b = Finding.of(Kinds.SPACING, Severity.FIX, Certainty.GEOMETRY)
                            .side(copper.side())
                            .at(gap.xMm(), gap.yMm())
                            .atLeast(Measured.mm("gap", gap.bottomMm(), gap.errorMm()), least)
                            .says("Copper at " + Words.number(volts, 0) + " V difference is only "
                                    + Words.mm(gap.bottomMm()) + " apart at the foil bottom; bare board outside wants "
                                    + Words.plainMm(least) + " (IPC-2221A, column B2; check the current edition).")
                            .doThis("Mill more passes beside this groove.");
                    copper.nearestLine(x, b, gap.xMm(), gap.yMm());
                    worst = b.build();
                }
            }
            if (worst != null) {
                out.add(worst);
            }
        }
    }
}

package foilproof.findings;

import foilproof.bench.LimitKey;
import foilproof.bench.Net;
import foilproof.copper.NarrowGap;
import foilproof.copper.StripFinder;
import foilproof.electrical.NetFigures;
import foilproof.electrical.Solder;
import foilproof.electrical.Spacing;
import foilproof.electrical.TemperatureRise;
import foilproof.electrical.TraceSection;
import java.util.List;

/**
 * Current (J5, J6), voltage (J7) and mains (L6). Temperature rise by the IPC-2221 chart formula on the as-milled
 * trapezium; spacing by IPC-2221A table 6-1, column B2 (both secondary transcriptions: check the current edition).
 */
final class NetsElectrical implements Check {
    private static final double WIDEST_GAP_MM = 3;

    @Override
    public List<String> kinds() {
        return List.of(Kinds.HOT_TRACE, Kinds.NARROW_NET, Kinds.SPACING);
    }

    @Override
    public List<String> needsRows() {
        return List.of("J5", "J6", "J7", "L6");
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
        spacing(x, out);
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
        TraceSection section = f.neck() == null ? f.narrowest() : f.neck();
        double other = Math.abs(x.foilMm() - 0.0348) < 0.005 ? 0.0174 : 0.0348;
        String foils = Words.um(x.foilMm()) + " foil: " + Words.number(rise, 1) + " K; " + Words.um(other) + " foil: "
                + Words.number(f.riseKInFoil(amps, other), 1) + " K";
        if (rise > x.limit(LimitKey.RISE_WATCH)) {
            boolean fix = rise > x.limit(LimitKey.RISE_FIX);
            double flooded =
                    TemperatureRise.riseK(TemperatureRise.EXTERNAL, amps, section.floodedAreaMm2(Solder.SN63PB37, 0.3));
            Finding.Builder b = Finding.of(
                            Kinds.HOT_TRACE, fix ? Severity.FIX : Severity.WATCH, Certainty.RULE_OF_THUMB)
                    .side(copper.side())
                    .at(f.neckXMm(), f.neckYMm())
                    .atMost(
                            new Measured("temperature rise", rise, "K", 0.3 * rise),
                            x.limit(fix ? LimitKey.RISE_FIX : LimitKey.RISE_WATCH))
                    .says("Net " + net.name() + " carries " + Words.number(amps, 2) + " A through a neck of "
                            + Words.mm(section.bottomMm()) + ": about " + Words.number(rise, 0)
                            + " K warmer (" + foils + "). The chart formula is for FR-4; on FR-1 expect worse.")
                    .doThis("Widen the neck first; flooded with 0.3 mm of solder it would rise about "
                            + Words.number(flooded, 0) + " K. Check the current edition of the standard.");
            x.copper(copper.side()).nearestLine(x, b, f.neckXMm(), f.neckYMm());
            out.add(b.build());
        }
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
                                + " mohm (copper's tolerance +/- 15 %).")
                        .doThis("Widen the trace, shorten it, or flood it with solder.")
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

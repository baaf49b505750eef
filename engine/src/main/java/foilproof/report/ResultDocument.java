package foilproof.report;

import foilproof.findings.Finding;
import foilproof.findings.NotChecked;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * The whole result of one dry run as plain values, key by key as {@code result.json} has them. Coordinates are mm in
 * the blank's frame seen with that side's face up, lower-left corner (0, 0), Z 0 = nominal foil top, down negative;
 * {@code side} counts from 1. Arrays inside the records are not copied: do not write into them.
 *
 * @param job the job's name
 * @param verdict what all findings say together
 * @param cellUm edge of the grid's cells, um
 * @param assumed defaults that stood in for what the inputs do not say
 * @param inputs every file that was read, with its SHA-256
 * @param setUp what was on the table, in words with units, for people: blank, spoil board, zero, spreads, machine
 * @param zWindows the Z window of each tool run that cuts copper
 * @param zWindowJoint the window of one Z error shared by all runs, or null where none was computed
 * @param findings worst first
 * @param notChecked what was not checked, and what it would need
 * @param sides one entry a side, in milling order
 * @param removed volumes taken off
 * @param tools one entry a tool that was used or asked for
 * @param runs the tool runs in time order
 * @param holes plunges and bores through the foil into the substrate
 * @param nets one entry a net; empty where no design names any
 * @param time times of the whole job
 * @param approval accepted findings, what remains where a cause is mended, what changed since an earlier result
 * @param restart how to take a program up again at a line, or null where nobody asked
 */
public record ResultDocument(
        String job,
        Verdict verdict,
        double cellUm,
        List<String> assumed,
        List<InputFile> inputs,
        List<SetUp> setUp,
        List<ZWindow> zWindows,
        @Nullable JointWindow zWindowJoint,
        List<Finding> findings,
        List<NotChecked> notChecked,
        List<SideFacts> sides,
        Removed removed,
        List<ToolFacts> tools,
        List<RunFacts> runs,
        List<HoleFacts> holes,
        List<NetFacts> nets,
        TimeFacts time,
        Approval approval,
        @Nullable Restart restart) {
    /** Copies the lists. */
    public ResultDocument {
        assumed = List.copyOf(assumed);
        inputs = List.copyOf(inputs);
        setUp = List.copyOf(setUp);
        zWindows = List.copyOf(zWindows);
        findings = List.copyOf(findings);
        notChecked = List.copyOf(notChecked);
        sides = List.copyOf(sides);
        tools = List.copyOf(tools);
        runs = List.copyOf(runs);
        holes = List.copyOf(holes);
        nets = List.copyOf(nets);
    }

    /** A result to which nothing of an approval belongs yet. */
    public ResultDocument(
            String job,
            Verdict verdict,
            double cellUm,
            List<String> assumed,
            List<InputFile> inputs,
            List<SetUp> setUp,
            List<ZWindow> zWindows,
            @Nullable JointWindow zWindowJoint,
            List<Finding> findings,
            List<NotChecked> notChecked,
            List<SideFacts> sides,
            Removed removed,
            List<ToolFacts> tools,
            List<RunFacts> runs,
            List<HoleFacts> holes,
            List<NetFacts> nets,
            TimeFacts time) {
        this(
                job,
                verdict,
                cellUm,
                assumed,
                inputs,
                setUp,
                zWindows,
                zWindowJoint,
                findings,
                notChecked,
                sides,
                removed,
                tools,
                runs,
                holes,
                nets,
                time,
                Approval.NONE,
                null);
    }

    /** The same with these findings and this approval; accepted findings do not count towards the verdict. */
    public ResultDocument with(List<Finding> all, Approval given) {
        List<Finding> counted = new ArrayList<>();
        for (int i = 0; i < all.size(); i++) {
            if (given.reasonFor(i + 1) == null) {
                counted.add(all.get(i));
            }
        }
        return new ResultDocument(
                job,
                Verdict.of(counted),
                cellUm,
                assumed,
                inputs,
                setUp,
                zWindows,
                zWindowJoint,
                all,
                notChecked,
                sides,
                removed,
                tools,
                runs,
                holes,
                nets,
                time,
                given,
                restart);
    }

    /** The same with a restart card. */
    public ResultDocument with(@Nullable Restart card) {
        return new ResultDocument(
                job,
                verdict,
                cellUm,
                assumed,
                inputs,
                setUp,
                zWindows,
                zWindowJoint,
                findings,
                notChecked,
                sides,
                removed,
                tools,
                runs,
                holes,
                nets,
                time,
                approval,
                card);
    }

    /** The findings that were not accepted. */
    public List<Finding> standing() {
        List<Finding> out = new ArrayList<>();
        for (int i = 0; i < findings.size(); i++) {
            if (approval.reasonFor(i + 1) == null) {
                out.add(findings.get(i));
            }
        }
        return List.copyOf(out);
    }

    /**
     * How to take a program up again at a line.
     *
     * @param program the program's file
     * @param line the line to begin with, from 1
     * @param freshBlank whether the lines before have not run on this very blank
     * @param tool the cutter that must be in the collet
     * @param side from 1
     * @param atMm where the tip must stand before the line: x, y, height above the nominal foil top, mm
     * @param clearMm height above the nominal foil top at which the way there is free, mm
     * @param steps what to do, in order; coordinates as the program counts them
     * @param problems why not to begin there; each is a finding, too
     */
    public record Restart(
            String program,
            int line,
            boolean freshBlank,
            String tool,
            int side,
            double[] atMm,
            double clearMm,
            List<String> steps,
            List<String> problems) {
        /** Copies the lists. */
        public Restart {
            steps = List.copyOf(steps);
            problems = List.copyOf(problems);
        }
    }

    /**
     * A file that was read.
     *
     * @param file name as the job has it
     * @param sha256 of its bytes, lower-case hexadecimal
     */
    public record InputFile(String file, String sha256) {}

    /**
     * One line of the set-up, for people.
     *
     * @param what e.g. {@code blank}
     * @param value e.g. {@code FR-1 1.5 mm (59.1 thou), half-ounce foil 17.4 um on one side}
     */
    public record SetUp(String what, String value) {}

    /**
     * The interval of Z error, + = really deeper, in which every copper and duty check of a tool run holds. Ends are
     * null where they lie beyond the headroom.
     *
     * @param tool tool name
     * @param side from 1
     * @param run number of the tool run, from 1, in time order
     * @param empty true where no Z error at all satisfies every check; the ends then say between which two limits
     *     nothing is left (from above to)
     * @param fromMm lower end, mm
     * @param toMm upper end, mm
     * @param plusMinusMm error of the ends, mm
     * @param fixFromMm lower end of the interval in which nothing at fix or stop is raised, mm
     * @param fixToMm its upper end, mm
     * @param limitedFrom what limits the lower end
     * @param limitedTo what limits the upper end
     * @param spreadMm the two ends of the Z error that the set-up allows, mm; null where unknown
     * @param marginMm least distance from the spread to an end, negative where the spread leaves the window, mm
     * @param note a sentence where numbers do not say it all, e.g. that no depth works
     */
    public record ZWindow(
            String tool,
            int side,
            int run,
            boolean empty,
            @Nullable Double fromMm,
            @Nullable Double toMm,
            double plusMinusMm,
            @Nullable Double fixFromMm,
            @Nullable Double fixToMm,
            @Nullable LimitedBy limitedFrom,
            @Nullable LimitedBy limitedTo,
            double @Nullable [] spreadMm,
            @Nullable Double marginMm,
            @Nullable String note) {}

    /**
     * What ends a window.
     *
     * @param kind kind of finding that would be raised beyond it
     * @param atMm x, y; null where no single place limits it
     */
    public record LimitedBy(String kind, double @Nullable [] atMm) {}

    /**
     * The window of one Z error shared by all tool runs.
     *
     * @param empty true where no Z error satisfies every check of all runs
     * @param fromMm lower end, mm, null beyond the headroom
     * @param toMm upper end, mm, null beyond the headroom
     * @param limitedFrom what limits the lower end
     * @param limitedTo what limits the upper end
     */
    public record JointWindow(
            boolean empty,
            @Nullable Double fromMm,
            @Nullable Double toMm,
            @Nullable LimitedBy limitedFrom,
            @Nullable LimitedBy limitedTo) {}

    /**
     * What one side looks like at the end, judged at the bottom of the foil, 4-connected.
     *
     * @param face {@code top} or {@code bottom}: the copper layer that faces up
     * @param copperMm2 copper left
     * @param pieces pieces of copper above 0.01 mm2
     * @param clearedMm2 cleared, holes included
     * @param foilLeftMm2 where a cutter entered and foil is left
     */
    public record SideFacts(String face, double copperMm2, int pieces, double clearedMm2, double foilLeftMm2) {}

    /**
     * Volumes taken off.
     *
     * @param foilMm3 copper
     * @param substrateMm3 substrate
     * @param spoilBoardMm3 spoil board
     */
    public record Removed(double foilMm3, double substrateMm3, double spoilBoardMm3) {}

    /**
     * One tool and what it did.
     *
     * @param name tool name
     * @param number the T word, or null
     * @param shape shape in words with its sizes, e.g. {@code V-shaped engraving bit, included angle 30 deg, flat tip
     *     0.10 mm}; null where unknown
     * @param duty what it is reserved for, or null
     * @param runs tool runs
     * @param cutLengthMm length of moves in material
     * @param deepestMm lowest Z reached, negative below the foil top; null where it never cut
     * @param inSubstrateMm length of moves that reach into the substrate
     * @param timeS time of its runs
     * @param feedMmPerMin least and greatest feed used in material; null where it never cut
     * @param spindleRpm least and greatest spindle speed used in material; null where unknown
     * @param removalMm3PerMin greatest volume taken off a minute in lateral moves; null where there is none
     * @param leastShareInCut least share of its width that an end mill takes in lateral moves, 0 to 1; null where its
     *     width is not one number, or it never cuts
     */
    public record ToolFacts(
            String name,
            @Nullable Integer number,
            @Nullable String shape,
            @Nullable String duty,
            int runs,
            double cutLengthMm,
            @Nullable Double deepestMm,
            double inSubstrateMm,
            double timeS,
            double @Nullable [] feedMmPerMin,
            double @Nullable [] spindleRpm,
            @Nullable Double removalMm3PerMin,
            @Nullable Double leastShareInCut) {}

    /**
     * One tool run: one cutter from its touch-off to its removal.
     *
     * @param run number from 1
     * @param tool tool name
     * @param side from 1
     * @param program program file in which it begins
     * @param line line at which it begins, from 1
     * @param fromS begin, seconds since the job's start
     * @param toS end, seconds
     * @param deepestMm lowest Z reached, or null where it never cut
     */
    public record RunFacts(
            int run,
            String tool,
            int side,
            String program,
            int line,
            double fromS,
            double toS,
            @Nullable Double deepestMm) {}

    /**
     * A plunge or a bore through the foil into the substrate.
     *
     * @param side from 1
     * @param atMm x, y of its middle
     * @param entryMm diameter at the foil
     * @param exitMm diameter at the blank's underside, 0 where it does not pass
     * @param through whether it passes the blank
     * @param ringMm copper ring left around it at the foil bottom, or null where there is none to measure
     * @param tool tool name
     * @param line program line, from 1, or null
     */
    public record HoleFacts(
            int side,
            double[] atMm,
            double entryMm,
            double exitMm,
            boolean through,
            @Nullable Double ringMm,
            @Nullable String tool,
            @Nullable Integer line) {}

    /**
     * One net as milled.
     *
     * @param name net name
     * @param pieces pieces of copper that carry it, joins counted as joined
     * @param shortedWith names of nets on the same copper
     * @param narrowestMm narrowest copper on it, or null
     * @param resistanceMohm largest resistance between two of its pads, or null
     * @param riseK temperature rise at the stated current, or null
     */
    public record NetFacts(
            String name,
            int pieces,
            List<String> shortedWith,
            @Nullable Double narrowestMm,
            @Nullable Double resistanceMohm,
            @Nullable Double riseK) {}

    /**
     * Times of the whole job.
     *
     * @param totalS everything, tool changes included
     * @param cuttingS moves at feed
     * @param rapidS rapid moves
     * @param toolChanges tool changes
     */
    public record TimeFacts(double totalS, double cuttingS, double rapidS, int toolChanges) {}
}

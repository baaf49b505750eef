/**
 * Nets, opens, shorts, resistance, current, spacing.
 *
 * <p>Nets come from the layer images' attributes, else from the netlist, else from what the layer images join ({@link
 * foilproof.electrical.IntendedNets}). Copper joins the places on one piece; hands join what the job declares and the
 * two faces of every pin; a via joins nothing by itself ({@link foilproof.electrical.NetJudge}).
 *
 * <p>Resistance is worked out on square cells with open and half-open faces ({@link
 * foilproof.electrical.SheetResistance}), widths along the way that the current takes ({@link
 * foilproof.electrical.NetSections}). Heating is the fit to the charts of IPC-2221 and spacing its table: rules that defer
 * to the current edition of the standard and to licensed practice. Mains voltage is refused.
 *
 * <p>Known limits: the largest resistance of a net is found by walking to the farthest place and back, which is exact
 * where the copper does not loop; a stretch narrower than a cell may be missed by the solver and is then covered by no
 * error bound, so the cell must be at most half the narrowest groove.
 */
@NullMarked
package foilproof.electrical;

import org.jspecify.annotations.NullMarked;

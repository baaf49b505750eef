/**
 * What copper is left, how it hangs together, how thin it is, and how far the Z error may move before that changes.
 *
 * <p>Everything is asked of a {@link foilproof.copper.MarginField}: heights of the finished surface above the foil's
 * glue plane at cell centres, and exactly anywhere. Steps: {@link foilproof.copper.CopperMap} tells pieces apart and
 * measures areas by marching squares; {@link foilproof.copper.StripFinder} finds hairs, slivers, thin traces and narrow
 * gaps from the contours; {@link foilproof.copper.FoilLeft} looks along the grooves; {@link
 * foilproof.copper.MergeTree} holds how the copper of one tool run hangs together at every Z error, and {@link
 * foilproof.copper.ZWindows} intersects its limits with those of foil, width and duty. {@link
 * foilproof.copper.SideCopper} does all of it for one side.
 *
 * <p>Cells only find places. What a person reads is measured anew from the cutters' shapes: widths across their strip,
 * limits of a Z window on a grid eight times finer round their saddle.
 *
 * <p>Decisions: a piece is lost where its highest peak is cleared, and falls apart where both parts are above 0.01 mm2;
 * pieces that are nothing but a leftover strip are no nets; leftover strips and rings round bores set no limit of width;
 * moves steeper than 0.02 are ways in and out and need not clear the foil.
 *
 * <p>Known limits: a strip between two vertical walls that is narrower than a cell can pass between cell centres unseen;
 * the area of a ridge thinner than a cell is in the area's error, not in the area; marching squares cut inner corners of
 * vertical walls off by less than a cell; limits of width hold for single tool runs with the others at their set-up.
 */
@NullMarked
package foilproof.copper;

import org.jspecify.annotations.NullMarked;

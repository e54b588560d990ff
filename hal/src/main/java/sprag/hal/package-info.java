/**
 * The boundary: what can be sampled and commanded, the fixed-rate loop, and the devices behind it.
 *
 * <p>Imports run one way, {@code hal -> supervisor}. Nothing here decides anything about the vehicle.
 */
package sprag.hal;

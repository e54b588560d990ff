package sprag.bench.drawing.sheet;

import java.util.ArrayList;
import java.util.Collection;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.eclipse.elk.alg.layered.LayeredLayoutProvider;
import org.eclipse.elk.alg.layered.options.CrossingMinimizationStrategy;
import org.eclipse.elk.alg.layered.options.GreedySwitchType;
import org.eclipse.elk.alg.layered.options.LayeredOptions;
import org.eclipse.elk.alg.layered.options.NodePlacementStrategy;
import org.eclipse.elk.alg.layered.options.OrderingStrategy;
import org.eclipse.elk.alg.layered.options.WrappingStrategy;
import org.eclipse.elk.core.data.LayoutMetaDataService;
import org.eclipse.elk.core.math.ElkPadding;
import org.eclipse.elk.core.options.Direction;
import org.eclipse.elk.core.options.EdgeRouting;
import org.eclipse.elk.core.options.PortConstraints;
import org.eclipse.elk.core.options.PortSide;
import org.eclipse.elk.core.options.SizeConstraint;
import org.eclipse.elk.core.util.BasicProgressMonitor;
import org.eclipse.elk.graph.ElkEdge;
import org.eclipse.elk.graph.ElkEdgeSection;
import org.eclipse.elk.graph.ElkNode;
import org.eclipse.elk.graph.ElkPort;
import org.eclipse.elk.graph.util.ElkGraphUtil;
import sprag.bench.drawing.paper.Point;
import sprag.bench.review.wiring.schedule.Wire;

/** Places boxes and leads wires between them at right angles, by the layered algorithm of a layout library. */
final class Layout {
    private static final double EXACT_MM = 0.01;
    private static final double NODE_GAP_MM = 4;
    private static final double LAYER_GAP_MM = 3;
    private static final double LINE_GAP_MM = 2.2;
    /** What a sheet is made for: wider than high. */
    private static final double ASPECT = 1.5;

    static {
        // Makes known how the library's own options are copied.
        LayoutMetaDataService.getInstance();
    }

    /** How boxes are placed, the best to read first. Straight lines take more room; a folded chain goes on in a second row below. */
    enum Way {
        STRAIGHT(NodePlacementStrategy.BRANDES_KOEPF, false),
        DENSE(NodePlacementStrategy.NETWORK_SIMPLEX, false),
        FOLDED(NodePlacementStrategy.BRANDES_KOEPF, true),
        FOLDED_DENSE(NodePlacementStrategy.NETWORK_SIMPLEX, true);

        private final NodePlacementStrategy placement;
        private final boolean folded;

        Way(NodePlacementStrategy placement, boolean folded) {
            this.placement = placement;
            this.folded = folded;
        }
    }

    private final List<Box> boxes;
    private final Map<Slot, ElkPort> ports = new HashMap<>();
    private final Map<Box, ElkNode> nodes = new LinkedHashMap<>();
    private final Map<Wire, ElkEdge> edges = new LinkedHashMap<>();

    private final boolean fixed;

    private Layout(List<Box> boxes, boolean fixed) {
        this.boxes = boxes;
        this.fixed = fixed;
    }

    /** Places the boxes of a sheet.
     *
     * @param way how
     */
    static Placed of(List<Box> boxes, Collection<Wire> wires, Way way) {
        Placed free = new Layout(boxes, false).place(wires, way);
        List<Box> ordered = boxes.stream().map(box -> ordered(box, free)).toList();
        return new Layout(ordered, true).place(wires, way);
    }

    /** The same box with its free terminals in the order that the first placing found. */
    private static Box ordered(Box box, Placed free) {
        if (!box.elements().isEmpty()) {
            return box;
        }
        List<Slot> slots = new ArrayList<>();
        for (boolean west : new boolean[] {true, false}) {
            List<Slot> side = box.slots().stream()
                    .filter(s -> s.west() == west)
                    .sorted(Comparator.comparingDouble(s -> free.ends().get(s).y()))
                    .toList();
            for (Slot slot : side) {
                slots.add(new Slot(slot.wire(), slot.terminal(), west, (int)
                        (slots.stream().filter(s -> s.west() == west).count())));
            }
        }
        return new Box(box.key(), box.part(), box.heading(), slots, box.elements(), box.size());
    }

    private Placed place(Collection<Wire> wires, Way way) {
        ElkNode root = ElkGraphUtil.createGraph();
        options(root, way);
        boxes.forEach(box -> nodes.put(box, node(root, box)));
        Map<Wire, Slot> starts = new HashMap<>();
        Map<Wire, Slot> stops = new HashMap<>();
        ports.keySet().forEach(slot -> (slot.west() ? stops : starts).put(slot.wire(), slot));
        for (Wire wire : wires) {
            edges.put(wire, ElkGraphUtil.createSimpleEdge(ports.get(starts.get(wire)), ports.get(stops.get(wire))));
        }
        LayeredLayoutProvider provider = new LayeredLayoutProvider();
        provider.initialize(null);
        provider.layout(root, new BasicProgressMonitor());
        return result(root);
    }

    private static void options(ElkNode root, Way way) {
        root.setProperty(LayeredOptions.DIRECTION, Direction.RIGHT);
        root.setProperty(LayeredOptions.EDGE_ROUTING, EdgeRouting.ORTHOGONAL);
        root.setProperty(LayeredOptions.PADDING, new ElkPadding(0));
        root.setProperty(LayeredOptions.ASPECT_RATIO, ASPECT);
        root.setProperty(LayeredOptions.RANDOM_SEED, 1);
        root.setProperty(LayeredOptions.THOROUGHNESS, 10);
        root.setProperty(LayeredOptions.SPACING_NODE_NODE, NODE_GAP_MM);
        root.setProperty(LayeredOptions.SPACING_COMPONENT_COMPONENT, 2 * NODE_GAP_MM);
        root.setProperty(LayeredOptions.SPACING_NODE_NODE_BETWEEN_LAYERS, LAYER_GAP_MM);
        root.setProperty(LayeredOptions.SPACING_EDGE_EDGE, LINE_GAP_MM);
        root.setProperty(LayeredOptions.SPACING_EDGE_EDGE_BETWEEN_LAYERS, LINE_GAP_MM);
        root.setProperty(LayeredOptions.SPACING_EDGE_NODE, LINE_GAP_MM);
        root.setProperty(LayeredOptions.SPACING_EDGE_NODE_BETWEEN_LAYERS, LINE_GAP_MM);
        root.setProperty(LayeredOptions.SPACING_NODE_SELF_LOOP, LINE_GAP_MM);
        root.setProperty(LayeredOptions.NODE_PLACEMENT_STRATEGY, way.placement);
        root.setProperty(LayeredOptions.CROSSING_MINIMIZATION_STRATEGY, CrossingMinimizationStrategy.LAYER_SWEEP);
        // The greedy switch fails with a null pointer on some sheets.
        root.setProperty(LayeredOptions.CROSSING_MINIMIZATION_GREEDY_SWITCH_TYPE, GreedySwitchType.OFF);
        // The order of the schedule is kept where it costs nothing, so that a new row moves little.
        root.setProperty(LayeredOptions.CONSIDER_MODEL_ORDER_STRATEGY, OrderingStrategy.NODES_AND_EDGES);
        if (way.folded) {
            root.setProperty(LayeredOptions.WRAPPING_STRATEGY, WrappingStrategy.MULTI_EDGE);
        }
    }

    private ElkNode node(ElkNode root, Box box) {
        ElkNode node = ElkGraphUtil.createNode(root);
        node.setDimensions(box.size().outerWidthMm(), box.size().heightMm());
        boolean inPlace = fixed || !box.elements().isEmpty();
        node.setProperty(
                LayeredOptions.PORT_CONSTRAINTS, inPlace ? PortConstraints.FIXED_POS : PortConstraints.FIXED_SIDE);
        node.setProperty(LayeredOptions.NODE_SIZE_CONSTRAINTS, SizeConstraint.fixed());
        for (Slot slot : box.slots()) {
            ElkPort port = ElkGraphUtil.createPort(node);
            port.setProperty(LayeredOptions.PORT_SIDE, slot.west() ? PortSide.WEST : PortSide.EAST);
            port.setLocation(slot.west() ? 0 : box.size().outerWidthMm(), box.rowY(slot.row()));
            ports.put(slot, port);
        }
        return node;
    }

    private Placed result(ElkNode root) {
        Map<Box, Point> corners = new LinkedHashMap<>();
        Map<Slot, Point> ends = new LinkedHashMap<>();
        nodes.forEach((box, node) -> {
            Point corner = new Point(node.getX() + box.size().westMm(), node.getY());
            corners.put(box, corner);
            for (Slot slot : box.slots()) {
                double x = slot.west() ? corner.x() : corner.x() + box.size().widthMm();
                ends.put(slot, new Point(x, node.getY() + ports.get(slot).getY()));
            }
        });
        Map<Wire, List<Point>> routes = new LinkedHashMap<>();
        edges.forEach((wire, edge) -> routes.put(wire, route(wire, edge, ends)));
        return new Placed(corners, ends, routes, root.getWidth(), root.getHeight());
    }

    private static List<Point> route(Wire wire, ElkEdge edge, Map<Slot, Point> ends) {
        List<Point> points = new ArrayList<>();
        ElkEdgeSection section = edge.getSections().get(0);
        points.add(new Point(section.getStartX(), section.getStartY()));
        section.getBendPoints().forEach(bend -> points.add(new Point(bend.getX(), bend.getY())));
        points.add(new Point(section.getEndX(), section.getEndY()));
        for (Map.Entry<Slot, Point> end : ends.entrySet()) {
            if (end.getKey().wire() == wire) {
                if (end.getKey().west()) {
                    points.add(end.getValue());
                } else {
                    points.add(0, end.getValue());
                }
            }
        }
        return square(points);
    }

    /** The library ends loops at one part a little beside its terminal; a corner makes the line upright again. */
    private static List<Point> square(List<Point> points) {
        List<Point> square = new ArrayList<>();
        for (Point point : points) {
            Point last = square.isEmpty() ? point : square.get(square.size() - 1);
            if (Math.abs(last.x() - point.x()) > EXACT_MM && Math.abs(last.y() - point.y()) > EXACT_MM) {
                square.add(new Point(point.x(), last.y()));
            }
            square.add(point);
        }
        return square;
    }
}

package sprag.hal.board.modbus;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;

/**
 * Neighbouring addresses of one table, which one request can carry. Gaps are not bridged: a module may refuse what lies in them.
 *
 * @param table which table
 * @param from the first address
 * @param count how many addresses
 * @param pins which pins of the map lie in it
 */
record ModbusGroup(ModbusTable table, int from, int count, int[] pins) {
    /** The smallest number of values that one write request may carry. */
    private static final int MOST_WRITTEN = 120;

    static List<ModbusGroup> of(List<ModbusAddress> addresses, boolean forWriting) {
        List<Integer> order = new ArrayList<>();
        for (int i = 0; i < addresses.size(); i++) {
            order.add(i);
        }
        order.sort(Comparator.comparing((Integer i) -> addresses.get(i).table())
                .thenComparing(i -> addresses.get(i).number()));
        List<ModbusGroup> groups = new ArrayList<>();
        List<Integer> members = new ArrayList<>();
        for (int i : order) {
            if (!members.isEmpty() && !joins(addresses, members, addresses.get(i), forWriting)) {
                groups.add(group(addresses, members));
                members.clear();
            }
            members.add(i);
        }
        if (!members.isEmpty()) {
            groups.add(group(addresses, members));
        }
        return groups;
    }

    private static boolean joins(
            List<ModbusAddress> addresses, List<Integer> members, ModbusAddress next, boolean forWriting) {
        ModbusAddress first = addresses.get(members.get(0));
        ModbusAddress last = addresses.get(members.get(members.size() - 1));
        int most = forWriting ? MOST_WRITTEN : next.table().mostRead;
        return next.table() == last.table()
                && next.number() - last.number() <= 1
                && next.number() - first.number() < most;
    }

    private static ModbusGroup group(List<ModbusAddress> addresses, List<Integer> members) {
        ModbusAddress first = addresses.get(members.get(0));
        ModbusAddress last = addresses.get(members.get(members.size() - 1));
        int[] pins = members.stream().mapToInt(Integer::intValue).toArray();
        return new ModbusGroup(first.table(), first.number(), last.number() - first.number() + 1, pins);
    }

    String what() {
        return table.what(from, count);
    }

    /** Bytes on the line for one read of the group, request and reply, with the silent intervals. */
    int bytesToRead() {
        int data = table.bits ? (count + 7) / 8 : 2 * count;
        return 8 + 5 + data + 2 * 4;
    }
}

package sprag.hal.board.modbus;

import com.ghgande.j2mod.modbus.ModbusException;
import com.ghgande.j2mod.modbus.ModbusSlaveException;
import com.ghgande.j2mod.modbus.io.ModbusRTUTransport;
import com.ghgande.j2mod.modbus.io.ModbusSerialTransaction;
import com.ghgande.j2mod.modbus.msg.ModbusRequest;
import com.ghgande.j2mod.modbus.msg.ModbusResponse;
import com.ghgande.j2mod.modbus.msg.ReadCoilsRequest;
import com.ghgande.j2mod.modbus.msg.ReadCoilsResponse;
import com.ghgande.j2mod.modbus.msg.ReadInputDiscretesRequest;
import com.ghgande.j2mod.modbus.msg.ReadInputDiscretesResponse;
import com.ghgande.j2mod.modbus.msg.ReadInputRegistersRequest;
import com.ghgande.j2mod.modbus.msg.ReadInputRegistersResponse;
import com.ghgande.j2mod.modbus.msg.ReadMultipleRegistersRequest;
import com.ghgande.j2mod.modbus.msg.ReadMultipleRegistersResponse;
import com.ghgande.j2mod.modbus.msg.WriteCoilRequest;
import com.ghgande.j2mod.modbus.msg.WriteMultipleCoilsRequest;
import com.ghgande.j2mod.modbus.msg.WriteMultipleRegistersRequest;
import com.ghgande.j2mod.modbus.msg.WriteSingleRegisterRequest;
import com.ghgande.j2mod.modbus.procimg.InputRegister;
import com.ghgande.j2mod.modbus.procimg.Register;
import com.ghgande.j2mod.modbus.procimg.SimpleRegister;
import com.ghgande.j2mod.modbus.util.BitVector;
import java.io.IOException;
import sprag.hal.board.LinkLost;

/** Requests to one unit and their replies. Every method ends within retries and time-outs. */
final class ModbusLine {
    private static final String TOO_LATE = "an answer came when none was due: it answers later than the time-out (make"
            + " modbus.timeout_ms longer, or the line faster), or the line is noisy";
    /** An answer that comes later than this is no longer expected. */
    private static final long DEAD_NS = 1_000_000_000;

    private static final long NONE = Long.MIN_VALUE;

    private final PortConnection connection;
    private final ModbusRTUTransport transport = new ModbusRTUTransport();
    private final int unitId;
    private final int retries;
    private final int timeoutMs;
    /** When the oldest request was sent to which a late answer may still come. */
    private long unansweredSinceNs = NONE;

    private boolean heardLate;
    private boolean noSingleWrites;
    private boolean noMultipleWrites;

    ModbusLine(PortConnection connection, int unitId, int retries, int timeoutMs) {
        this.connection = connection;
        this.unitId = unitId;
        this.retries = retries;
        this.timeoutMs = timeoutMs;
        try {
            transport.setCommPort(connection);
        } catch (IOException e) {
            throw new IllegalStateException("the library refused a port that is not opened by it: " + e, e);
        }
        transport.setTimeout(timeoutMs);
    }

    /** Reads neighbouring addresses; one number each, 0 or 1 for bits. */
    int[] read(ModbusTable table, int from, int count) throws LinkLost, Refused {
        ModbusRequest request = readRequest(table, from, count);
        ModbusResponse response = exchange(request, "reading " + table.what(from, count), count);
        int[] values = new int[count];
        for (int i = 0; i < count; i++) {
            values[i] = valueOf(response, i);
        }
        return values;
    }

    /** Writes neighbouring addresses of a table. When the module lacks one function code for writing, the other is used. */
    void write(ModbusTable table, int from, long[] values) throws LinkLost, Refused {
        boolean single = values.length == 1 ? !noSingleWrites : noMultipleWrites;
        try {
            writeOnce(table, from, values, single);
        } catch (Refused e) {
            if (e.code != ExceptionCode.FUNCTION.code || noSingleWrites || noMultipleWrites) {
                throw e;
            }
            writeOnce(table, from, values, !single);
            noSingleWrites = single;
            noMultipleWrites = !single;
        }
    }

    private void writeOnce(ModbusTable table, int from, long[] values, boolean single) throws LinkLost, Refused {
        if (!single) {
            String what = "writing " + table.what(from, values.length);
            exchange(table.bits ? coils(from, values) : registers(from, values), what, values.length);
            return;
        }
        for (int i = 0; i < values.length; i++) {
            ModbusRequest request = table.bits
                    ? new WriteCoilRequest(from + i, values[i] != 0)
                    : new WriteSingleRegisterRequest(from + i, new SimpleRegister((int) values[i]));
            exchange(request, "writing " + table.what(from + i, 1), 1);
        }
    }

    private static ModbusRequest coils(int from, long[] values) {
        BitVector bits = new BitVector(values.length);
        for (int i = 0; i < values.length; i++) {
            bits.setBit(i, values[i] != 0);
        }
        return new WriteMultipleCoilsRequest(from, bits);
    }

    private static ModbusRequest registers(int from, long[] values) {
        Register[] words = new Register[values.length];
        for (int i = 0; i < values.length; i++) {
            words[i] = new SimpleRegister((int) values[i]);
        }
        return new WriteMultipleRegistersRequest(from, words);
    }

    private static ModbusRequest readRequest(ModbusTable table, int from, int count) {
        switch (table) {
            case COIL:
                return new ReadCoilsRequest(from, count);
            case DISCRETE:
                return new ReadInputDiscretesRequest(from, count);
            case INPUT:
                return new ReadInputRegistersRequest(from, count);
            default:
                return new ReadMultipleRegistersRequest(from, count);
        }
    }

    private ModbusResponse exchange(ModbusRequest request, String doing, int count) throws LinkLost, Refused {
        request.setUnitID(unitId);
        String failure = "";
        for (int attempt = 0; attempt <= retries; attempt++) {
            if (unansweredSinceNs != NONE) {
                heardLate |= connection.drain(timeoutMs * 1_000_000L / 2);
            }
            try {
                ModbusResponse response = once(request);
                failure = mismatch(request, response, count);
                if (failure.isEmpty() && drainLate()) {
                    return response;
                }
                failure = failure.isEmpty() ? TOO_LATE : failure;
            } catch (ModbusSlaveException e) {
                if (!ExceptionCode.isPassing(e.getType()) || attempt == retries) {
                    drainLate();
                    throw new Refused(
                            e.getType(),
                            "unit " + unitId + " refuses " + doing + ": " + ExceptionCode.explain(e.getType()));
                }
                failure = ExceptionCode.explain(e.getType());
            } catch (ModbusException | RuntimeException e) {
                // The library answers some garbled frames with a RuntimeException; either way no good reply came.
                failure = noGoodReply();
            }
            if (connection.lost() != null) {
                throw connection.lost();
            }
            unansweredSinceNs = unansweredSinceNs == NONE ? connection.sentNs() : unansweredSinceNs;
        }
        throw new LinkLost("unit " + unitId + " on " + connection.getPortName() + " gave no good reply to " + doing
                + " in " + (retries + 1) + " attempts of " + timeoutMs + " ms: " + failure);
    }

    private ModbusResponse once(ModbusRequest request) throws ModbusException {
        ModbusSerialTransaction transaction = new ModbusSerialTransaction();
        transaction.setTransport(transport);
        transaction.setTransDelayMS(0);
        transaction.setRetries(1);
        transaction.setRequest(request);
        transaction.execute();
        return transaction.getResponse();
    }

    /**
     * A request without an answer may still get one, and that looks like the answer to the next request: a module that is slower
     * than the time-out would be one answer behind for ever. So the first answer after it counts only when no other follows
     * within the time between the two requests; what follows is thrown away.
     *
     * @return whether the answer that has just come can be trusted
     */
    private boolean drainLate() {
        if (unansweredSinceNs == NONE) {
            return true;
        }
        if (connection.drain(Math.min(connection.sentNs() - unansweredSinceNs, DEAD_NS))) {
            heardLate = true;
            return false;
        }
        unansweredSinceNs = NONE;
        return true;
    }

    private String mismatch(ModbusRequest request, ModbusResponse response, int count) {
        if (response == null) {
            return "no reply";
        }
        if (response.getUnitID() != unitId) {
            return stranger(response.getUnitID());
        }
        if (response.getFunctionCode() != request.getFunctionCode()) {
            return "a reply to function " + response.getFunctionCode() + " came for function "
                    + request.getFunctionCode();
        }
        int sent = countOf(response, count);
        return sent == count ? "" : "the reply holds " + sent + " values instead of " + count;
    }

    /** How many values a reply to a read holds; bits come in whole bytes. */
    private static int countOf(ModbusResponse response, int wanted) {
        if (response instanceof ReadMultipleRegistersResponse) {
            return ((ReadMultipleRegistersResponse) response).getWordCount();
        }
        if (response instanceof ReadInputRegistersResponse) {
            return ((ReadInputRegistersResponse) response).getWordCount();
        }
        BitVector bits = bitsOf(response);
        if (bits != null) {
            return bits.byteSize() == (wanted + 7) / 8 ? wanted : bits.byteSize() * 8;
        }
        return wanted;
    }

    private static BitVector bitsOf(ModbusResponse response) {
        if (response instanceof ReadCoilsResponse) {
            return ((ReadCoilsResponse) response).getCoils();
        }
        return response instanceof ReadInputDiscretesResponse
                ? ((ReadInputDiscretesResponse) response).getDiscretes()
                : null;
    }

    private static int valueOf(ModbusResponse response, int index) {
        BitVector bits = bitsOf(response);
        if (bits != null) {
            return bits.getBit(index) ? 1 : 0;
        }
        InputRegister word = response instanceof ReadMultipleRegistersResponse
                ? ((ReadMultipleRegistersResponse) response).getRegister(index)
                : ((ReadInputRegistersResponse) response).getRegister(index);
        return word.toUnsignedShort();
    }

    private static String stranger(int unit) {
        return "unit " + unit + " answered instead; is the unit id right, are speed and parity right, and is there one"
                + " master only?";
    }

    /** What came instead of a good reply, by the bytes on the line and not by the words of the library. */
    private String noGoodReply() {
        if (connection.bytesSeen() == 0) {
            return "not one byte came; check cable, supply, speed, parity, the polarity of A and B, and the unit id";
        }
        if (connection.answer().unit() < 0) {
            return heardLate ? TOO_LATE : "nothing came this time; check cable and supply";
        }
        if (connection.answer().hasWrongSum()) {
            return "the check sum is wrong; check speed, parity, termination and shielding";
        }
        return connection.answer().unit() != unitId
                ? stranger(connection.answer().unit())
                : "the reply broke off or is none (" + connection.bytesSeen() + " bytes so far, first "
                        + connection.firstBytes() + "); check cable, speed and parity, or is it another device?";
    }

    /** The unit answered, and the answer is no. */
    static final class Refused extends Exception {
        private static final long serialVersionUID = 1;

        final int code;

        Refused(int code, String words) {
            super(words);
            this.code = code;
        }
    }
}

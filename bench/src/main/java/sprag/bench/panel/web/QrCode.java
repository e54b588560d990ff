package sprag.bench.panel.web;

import com.google.zxing.WriterException;
import com.google.zxing.qrcode.decoder.ErrorCorrectionLevel;
import com.google.zxing.qrcode.encoder.ByteMatrix;
import com.google.zxing.qrcode.encoder.Encoder;
import java.util.ArrayList;
import java.util.List;

/** A link as a QR code (ISO/IEC 18004), for the camera of a phone. */
public final class QrCode {
    /** The white edge that the standard asks for, in modules. */
    private static final int QUIET = 4;

    private QrCode() {}

    /** The modules with their quiet zone, a row a text: {@code 1} is dark. */
    static List<String> rows(String text) {
        ByteMatrix modules;
        try {
            modules = Encoder.encode(text, ErrorCorrectionLevel.L).getMatrix();
        } catch (WriterException e) {
            throw new IllegalArgumentException("too long for a QR code: " + text.length() + " characters", e);
        }
        List<String> rows = new ArrayList<>();
        for (int y = -QUIET; y < modules.getHeight() + QUIET; y++) {
            StringBuilder row = new StringBuilder();
            for (int x = -QUIET; x < modules.getWidth() + QUIET; x++) {
                boolean inside = y >= 0 && y < modules.getHeight() && x >= 0 && x < modules.getWidth();
                row.append(inside && modules.get(x, y) == 1 ? '1' : '0');
            }
            rows.add(row.toString());
        }
        return rows;
    }

    /** The same for a terminal, dark on white whatever its colours are; two rows of modules in one line. */
    public static List<String> lines(String text) {
        List<String> rows = rows(text);
        List<String> lines = new ArrayList<>();
        for (int y = 0; y < rows.size(); y += 2) {
            StringBuilder line = new StringBuilder("\u001b[30;107m");
            for (int x = 0; x < rows.get(y).length(); x++) {
                boolean upper = rows.get(y).charAt(x) == '1';
                boolean lower = y + 1 < rows.size() && rows.get(y + 1).charAt(x) == '1';
                line.append(upper ? lower ? '\u2588' : '\u2580' : lower ? '\u2584' : ' ');
            }
            lines.add(line.append("\u001b[0m").toString());
        }
        return lines;
    }
}

package sprag.hal.bus;

import com.sun.jna.Platform;
import java.io.IOException;
import java.io.InputStream;
import java.net.URL;
import java.nio.ByteBuffer;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.Collections;
import sprag.hal.board.LinkLost;
import tel.schich.javacan.CanChannels;
import tel.schich.javacan.CanSocketOptions;
import tel.schich.javacan.JavaCAN;
import tel.schich.javacan.RawCanChannel;
import tel.schich.javacan.platform.linux.LinuxNativeOperationException;

/** A socket of the Linux kernel for a CAN interface, by the library JavaCAN. */
final class KernelSocket implements KernelPort.Socket {
    private static final String NATIVE_PART = "native/libjavacan-core.so";
    private static final String NATIVE_PATH = "javacan.native.javacan-core.path";
    /** Every error that the kernel can report (CAN_ERR_MASK). */
    private static final int ALL_ERRORS = 0x1FFF_FFFF;
    /** The queue of the interface is full (ENOBUFS). */
    private static final int NO_ROOM = 105;

    private final RawCanChannel channel;

    KernelSocket(RawCanChannel channel) {
        this.channel = channel;
    }

    static KernelPort.Socket open(String name) throws LinkLost {
        if (!Platform.isLinux()) {
            throw new LinkLost(
                    KernelPort.PREFIX + name + " is an interface of the Linux kernel, and this is no Linux; use"
                            + " an adapter that speaks the serial-line protocol");
        }
        loadNativePart(name);
        RawCanChannel channel = null;
        try {
            channel = CanChannels.newRawChannel(name);
            channel.configureBlocking(false);
            channel.setOption(CanSocketOptions.ERR_FILTER, ALL_ERRORS);
            return new KernelSocket(channel);
        } catch (IOException e) {
            throw notOpened(name, channel, e);
        }
    }

    private static LinkLost notOpened(String name, RawCanChannel channel, IOException e) {
        String more = "";
        if (channel != null) {
            try {
                channel.close();
            } catch (IOException closing) {
                more = " (nor could it be closed: " + closing.getMessage() + ")";
            }
        }
        return new LinkLost(KernelPort.PREFIX + name + " cannot be opened: " + e.getMessage() + more
                + "; \"ip link\" lists the interfaces of this machine, and the kernel needs its CAN modules");
    }

    /** The library keeps the native part of each processor in an archive of its own, all under the same name. */
    private static synchronized void loadNativePart(String name) throws LinkLost {
        String processor = tel.schich.javacan.platform.Platform.detectCpuArch();
        try {
            if (System.getProperty(NATIVE_PATH) == null) {
                for (URL url :
                        Collections.list(KernelSocket.class.getClassLoader().getResources(NATIVE_PART))) {
                    if (url.toString().contains("-" + processor + ".jar")) {
                        System.setProperty(NATIVE_PATH, copied(url).toString());
                    }
                }
            }
            JavaCAN.initialize();
        } catch (IOException | LinkageError | RuntimeException e) {
            throw new LinkLost(KernelPort.PREFIX + name + ": the native part for the processor " + processor
                    + " cannot be loaded (" + e.getMessage()
                    + "); use an adapter that speaks the serial-line protocol");
        }
    }

    private static Path copied(URL url) throws IOException {
        Path copy = Files.createTempFile("sprag-can", ".so");
        copy.toFile().deleteOnExit();
        try (InputStream in = url.openStream()) {
            Files.copy(in, copy, StandardCopyOption.REPLACE_EXISTING);
        }
        return copy;
    }

    @Override
    public boolean read(ByteBuffer frame) throws IOException {
        try {
            return channel.readUnsafe(frame) > 0;
        } catch (LinuxNativeOperationException e) {
            return isAgain(e);
        }
    }

    @Override
    public boolean write(ByteBuffer frame) throws IOException {
        try {
            return channel.writeUnsafe(frame) > 0;
        } catch (LinuxNativeOperationException e) {
            return e.getErrorNumber() != NO_ROOM && isAgain(e);
        }
    }

    /** False: later perhaps. Anything else is an error of the interface. */
    private static boolean isAgain(LinuxNativeOperationException e) throws IOException {
        if (!e.mayTryAgain()) {
            throw e;
        }
        return false;
    }

    @Override
    public void close() throws IOException {
        channel.close();
    }
}

package sprag.hal.board.firmata;

import static sprag.hal.board.BoardBench.relay;
import static sprag.hal.board.BoardBench.switchOn;

import java.util.List;
import java.util.Map;
import sprag.hal.Clock;
import sprag.hal.board.Board;
import sprag.hal.board.BoardMap;
import sprag.hal.board.BoardSetting;
import sprag.hal.board.BoardSettings;
import sprag.hal.board.BoardSpec;
import sprag.hal.board.BoardState;
import sprag.hal.board.PortChoice;
import sprag.supervisor.vocabulary.Commands;
import sprag.supervisor.vocabulary.Output;
import sprag.supervisor.vocabulary.Signal;

/** A program that drives a contactor on the board at the port it is given, until something ends it; it cleans nothing up itself. */
public final class DrivingProgram {
    private DrivingProgram() {}

    public static void main(String[] args) {
        Clock clock = Clock.real();
        BoardMap map =
                new BoardMap(List.of(switchOn(Signal.KEY_ON, "D2")), List.of(relay(Output.POSITIVE_CONTACTOR, "D8")));
        BoardSettings settings = new BoardSettings(Map.of(BoardSetting.BAUD, 57600.0, BoardSetting.SILENCE_MS, 1000.0));
        Board board = new Board(
                        new BoardSpec("driven", new FirmataDriver(), PortChoice.path(args[0]), settings, map), clock)
                .start();
        Commands commands = new Commands();
        commands.set(Output.POSITIVE_CONTACTOR, 1);
        while (true) {
            if (board.state() == BoardState.READY) {
                board.requestArm();
            }
            board.command(commands, clock.nowNs());
            clock.waitUntil(clock.nowNs() + 10_000_000);
        }
    }
}

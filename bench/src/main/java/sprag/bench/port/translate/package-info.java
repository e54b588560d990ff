/**
 * From the sources of the supervisor to C99. The compiler of the JDK reads them; what stands here walks the typed trees and writes C.
 *
 * <p>Constructors are not translated. A supervisor is made in Java, and the objects that a tick reaches are written out as data.
 * Whatever a tick reaches and this package does not know is refused with its file and line.
 */
package sprag.bench.port.translate;

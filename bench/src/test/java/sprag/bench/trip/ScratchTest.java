package sprag.bench.trip;
import java.nio.file.*; import java.util.*;
import sprag.bench.vehicle.*;
import org.junit.jupiter.api.Test;
class ScratchTest {
  static SpeedTrace csv(String f) throws Exception {
    List<double[]> rows=new ArrayList<>();
    for (String l: Files.readAllLines(Path.of(f))) { if (l.startsWith("#")||l.startsWith("time")) continue; String[] p=l.split(","); rows.add(new double[]{Double.parseDouble(p[0]),Double.parseDouble(p[1])}); }
    int n=rows.size(); double[] t=new double[n],v=new double[n];
    for(int i=0;i<n;i++){t[i]=rows.get(i)[0];v[i]=rows.get(i)[1];}
    return new SpeedTrace(f,"",t,v,new double[n],new boolean[n]);
  }
  static SpeedTrace times(SpeedTrace a,int k){ int m=a.rows(); int n=(m-1)*k+1; double[] t=new double[n],v=new double[n]; for(int i=0;i<n;i++){ int r=i%(m-1); t[i]=i; v[i]=a.speedMps(r)*3.6;} return new SpeedTrace("x","",t,v,new double[n],new boolean[n]); }
  public static void main(String[] a) throws Exception { new ScratchTest().t(); }
  @Test void t() throws Exception {
    for (String f: new String[]{"udds"}) for (String n: new String[]{"coupe","coupe"}) {
      Vehicle v=VehicleReader.read(Path.of("/tmp/wt/trip/config/vehicles/"+n));
      SpeedTrace tr=csv("/work/shared/data/"+f+".csv");
      for (int k=1;k<=(f.equals("udds")?21:1);k+=20) {
      long t0=System.nanoTime();
      TripResult r=new TripRun(new Ride(v,new Weather(k==1?0.9:1.0,20,0,false,(int)v.get(sprag.supervisor.vocabulary.Parameter.REGEN_LEVELS))),k==1?tr:times(tr,k)).drive(()->false);
      double s=(System.nanoTime()-t0)/1e9;
      System.out.printf("%s %s %.4f km of %.4f, %.2f Wh/km, back %.3f, unexplained %.6f, outside %.1f long %d worst %.2f full %.1f, soc %.3f, %s, %.2f s = %.0f x%n",n,f,r.km(),tr.distanceM()/1000,r.cellsWhPerKm(),r.energy().givenBackShare(),r.energy().unexplainedShare(),r.keeping().outsideS,r.keeping().longOccasions,r.keeping().worstKph,r.keeping().outsideAtFullPedalS,r.charge().endSoc(),r.drive().ended(),s,r.drive().timeS()/s);
      System.out.println(r.limits().all().keySet());
      }
    }
  }
}

using Rollwright.Lessons.Captions;
using Rollwright.TestKit;

namespace Rollwright.Lessons.Tests.Captions;

public class BarTimesJsonTests
{
    [Fact]
    public void What_is_written_is_read_back()
    {
        var times = BarTimesJson.Read(BarTimesJson.Write([0.5, 1.75, 3.0004]), SampleBreaks.Small);
        times.Bars.Select(bar => bar.From).Should().Equal(0.5, 1.75, 3);
        times.Bars.Select(bar => bar.Bar).Should().Equal(SampleBreaks.Small.Order.Take(3));
    }
}

namespace Rollwright.Listening.Beside;

/// <summary>The values of <c>data/takes.txt</c>.</summary>
internal static class TakeTable
{
    private static readonly NumberTable Values = new("takes.txt");

    public static double Of(string name) => Values[name];
}

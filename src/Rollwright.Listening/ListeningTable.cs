namespace Rollwright.Listening;

/// <summary>The values of <c>data/listening.txt</c>.</summary>
internal static class ListeningTable
{
    private static readonly NumberTable Values = new("listening.txt");

    public static double Of(string name) => Values[name];
}

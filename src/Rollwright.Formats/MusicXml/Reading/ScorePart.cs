namespace Rollwright.Formats.MusicXml.Reading;

/// <summary>What a first look at a score finds of one of its parts.</summary>
internal sealed class ScorePart(string id, (int Line, int Column) place)
{
    private bool inTechnical;

    public string Id { get; } = id;

    public (int Line, int Column) Place { get; } = place;

    /// <summary>As the list of parts says; empty where it is silent.</summary>
    public string Name { get; set; } = "";

    public int Elements { get; private set; }

    public int Notes { get; private set; }

    public bool HasPitch { get; private set; }

    public bool HasFret { get; private set; }

    /// <summary>Its name, else its id.</summary>
    public string Called => Name.Length > 0 ? Name : Id;

    public void Count(string element)
    {
        Elements++;
        Notes += element == "note" ? 1 : 0;
        HasPitch |= element == "pitch";
        // Frets of chord diagrams are no tab.
        inTechnical = element == "technical" || (inTechnical && element is not ("note" or "frame"));
        HasFret |= inTechnical && element == "fret";
    }

    public bool IsCalled(string wanted) =>
        Id == wanted || string.Equals(Called, wanted, StringComparison.OrdinalIgnoreCase);
}

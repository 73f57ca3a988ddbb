namespace Rollwright.Arranging.Solving;

/// <summary>What is wished of a step besides the tune: notes that must sound, or what was heard of someone's playing.</summary>
public interface IWish
{
    /// <summary>What a way of doing the step leaves of the wish, as a price; 0 where it is all that is wished.</summary>
    int Missing(PathStep done);
}

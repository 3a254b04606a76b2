import { useQuery } from '@tanstack/react-query';
import type { Subjects } from '../../core/evidence/subject.ts';
import type { StructureAnswered, StructureDrawn } from '../../wire/structure.ts';
import { request } from '../api/request.ts';

/** The SMILES of the subjects, each once, in their order. */
export function smilesOf({ product, others }: Subjects): string[] {
  const all = [product, ...others].flatMap((subject) => subject?.substance.smiles ?? []);
  return [...new Set(all)];
}

const isStructure = (answered: StructureAnswered): answered is StructureDrawn =>
  'matches' in answered;

const NONE: ReadonlyMap<string, StructureDrawn> = new Map();

/** Which groups the structures hold, by SMILES; asked of the server, which has the toolkit. */
export function useStructures(subjects: Subjects): {
  readonly structures: ReadonlyMap<string, StructureDrawn>;
  readonly waiting: boolean;
} {
  const smiles = smilesOf(subjects).slice(0, 40);
  const asked = useQuery({
    queryKey: ['structures', ...smiles],
    queryFn: async () => {
      const body = { smiles };
      const path = '/api/structures/facts';
      const answered = await request<StructureAnswered[]>(path, { method: 'POST', body });
      return new Map(answered.filter(isStructure).map((facts) => [facts.smiles, facts]));
    },
    enabled: smiles.length > 0,
    staleTime: Infinity,
  });
  return { structures: asked.data ?? NONE, waiting: smiles.length > 0 && asked.isPending };
}
